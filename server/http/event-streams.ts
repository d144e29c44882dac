import type { Request, Response } from 'express';
import { RequestError } from './request-error.ts';

const MOST_AT_ONCE = 200;
const HEARTBEAT_MS = 15_000;
/** A listener that leaves so much unread is hung up on: its browser asks again when it is back. */
const MOST_UNREAD_BYTES = 1_000_000;

/** An open stream of server-sent events. What is sent after its end is dropped. */
export interface EventStream {
  send(event: string, data: unknown): void;
  end(): void;
}

/** The open streams of server-sent events: how many there are is bounded, and all of them end when the server does. */
export class EventStreams {
  readonly #open = new Set<EventStream>();

  /** @param onEnd called once, when the stream ends for whatever reason */
  open(request: Request, response: Response, onEnd: () => void): EventStream {
    if (this.#open.size >= MOST_AT_ONCE)
      throw new RequestError(503, 'busy', 'Too many pages are listening for news. Close some and try again.');
    response.writeHead(200, {
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
    });
    const write = (text: string): void => {
      if (response.writableEnded || response.destroyed) return;
      if (response.writableLength > MOST_UNREAD_BYTES) response.destroy();
      else response.write(text);
    };
    write(': open\n\n');
    const heartbeat = setInterval(() => write(': still here\n\n'), HEARTBEAT_MS);
    const stream: EventStream = {
      send: (event, data) => write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`),
      end: () => void response.end(),
    };
    this.#open.add(stream);
    const ended = (): void => {
      if (!this.#open.delete(stream)) return;
      clearInterval(heartbeat);
      onEnd();
    };
    request.on('close', ended);
    response.on('close', ended);
    // Who asks for the headers alone gets them, and no stream that would never end.
    if (request.method === 'HEAD') stream.end();
    return stream;
  }

  endAll(): void {
    for (const stream of this.#open) stream.end();
  }
}
