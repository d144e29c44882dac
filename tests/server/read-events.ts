import type { Loose } from './checked-api.ts';

export interface ReadEvent {
  readonly event: string;
  readonly data: Loose;
}

/** Reads server-sent events until the stream ends, or until `enough` says so. */
export async function readEvents(
  url: string,
  enough: (events: readonly ReadEvent[]) => boolean = () => false,
): Promise<ReadEvent[]> {
  const response = await fetch(url);
  const events: ReadEvent[] = [];
  const decoder = new TextDecoder();
  let text = '';
  for await (const chunk of response.body as unknown as AsyncIterable<Uint8Array>) {
    text += decoder.decode(chunk, { stream: true });
    for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
      const lines = text.slice(0, end).split('\n');
      text = text.slice(end + 2);
      const event = lines.find((line) => line.startsWith('event: '))?.slice(7);
      const data = lines.find((line) => line.startsWith('data: '))?.slice(6);
      if (event && data) events.push({ event, data: JSON.parse(data) });
    }
    // Leaving the loop hangs up.
    if (enough(events)) break;
  }
  return events;
}
