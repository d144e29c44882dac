import { listen, make } from '../dom/make.ts';
import { type IconName, icon } from '../page/icons.ts';

/** A small button beside a chart. */
export const chartTool = (name: IconName, text: string, click: () => void): HTMLButtonElement =>
  listen(make('button', { type: 'button', class: 'plain small' }, icon(name), text), { click });
