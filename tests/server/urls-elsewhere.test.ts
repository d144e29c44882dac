import { expect, it } from 'vitest';
import { urlsElsewhere } from '../../server/strangers/urls-elsewhere.ts';

const interfaces = {
  lo: [
    { address: '127.0.0.1', internal: true },
    { address: '::1', internal: true },
  ],
  eth0: [
    { address: 'fe80::1', internal: false },
    { address: '2001:db8::7', internal: false },
    { address: '192.0.2.7', internal: false },
  ],
};

it.each([
  ['0.0.0.0', ['http://192.0.2.7:4173']],
  ['::', ['http://192.0.2.7:4173', 'http://[2001:db8::7]:4173']],
  ['127.0.0.1', []],
  ['192.0.2.7', []],
])('listening on %s, other machines find it at %j', (listen, urls) => {
  expect(urlsElsewhere(listen, 4173, interfaces)).toEqual(urls);
});
