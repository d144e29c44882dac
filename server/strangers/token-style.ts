import { createHash } from 'node:crypto';

/** The page for the token looks like the rest: colours as in `web/styles/tokens.css`, light and dark. */
export const tokenStyle = `
:root { color-scheme: light dark;
  --paper: light-dark(#eef1ef, #11171a); --panel: light-dark(#fbfcfb, #192125);
  --ink: light-dark(#17211f, #e4eae7); --line-strong: light-dark(#75837e, #6b7c7f);
  --accent: light-dark(#15506f, #8cc4e4); --on-accent: light-dark(#ffffff, #0b1a22); }
* { box-sizing: border-box; }
body { margin: 0; padding: 1.5rem 1rem; background: var(--paper); color: var(--ink); font: 1rem/1.55 system-ui, sans-serif; }
main { max-width: 34rem; margin: 8vh auto 0; padding: 1.5rem; background: var(--panel); border-radius: 10px; }
h1 { margin: 0 0 .75rem; font-size: 1.65rem; line-height: 1.2; }
p { margin: 0 0 1rem; }
label { display: block; font-size: .875rem; font-weight: 600; }
input, button { font: inherit; min-height: 2.75rem; border-radius: 6px; }
input { width: 100%; padding: .45rem .65rem; color: inherit; background: var(--panel); border: 1px solid var(--line-strong); }
button { padding: .35rem 1.25rem; font-weight: 600; color: var(--on-accent); background: var(--accent); border: 1px solid var(--accent); cursor: pointer; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
`;

/** What the page for the token may do: be styled by the above, and send its form to the server it came from. */
export const tokenPagePolicy = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(tokenStyle).digest('base64')}'`,
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');
