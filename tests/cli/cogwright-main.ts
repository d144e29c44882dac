import { main } from '../../src/cli/main.ts';

void main(process.argv.slice(2));
