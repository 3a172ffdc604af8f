import { describe, expect, it } from 'vitest';
import { pagesAfter, pagesBefore, questionPages } from '../../app/_parts/contents.ts';
import { tourSteps } from '../../app/_parts/first-run/tour-steps.ts';
import { letteredPages, pressed } from '../../app/_parts/shortcuts/shortcut-keys.ts';

const everyPage = [...pagesBefore, ...questionPages, ...pagesAfter].map(({ path }) => path);

describe('shortcuts', () => {
  it('lead to every page by a letter of its own', () => {
    expect(letteredPages.map(({ path }) => path)).toEqual(everyPage);
    expect(new Set(letteredPages.map(({ letter }) => letter)).size).toBe(everyPage.length);
    for (const { path, letter } of letteredPages)
      expect(pressed({ key: letter }, true)).toEqual({ act: { is: 'go', path }, waiting: false });
  });

  it('take one key for the list, the search and the brief', () => {
    expect(pressed({ key: '?' }, false).act).toEqual({ is: 'list' });
    expect(pressed({ key: '/' }, false).act).toEqual({ is: 'search' });
    expect(pressed({ key: 'b' }, false).act).toEqual({ is: 'put' });
  });

  it('wait after g, and give up over a letter that leads nowhere', () => {
    expect(pressed({ key: 'g' }, false)).toEqual({ act: null, waiting: true });
    expect(pressed({ key: '1' }, true)).toEqual({ act: null, waiting: false });
    expect(pressed({ key: 'm' }, false)).toEqual({ act: null, waiting: false });
  });

  it('leave to the browser what is pressed with Ctrl, Alt or the command key, and names of no key', () => {
    for (const held of ['ctrlKey', 'metaKey', 'altKey'])
      expect(pressed({ key: 'b', [held]: true }, false)).toEqual({ act: null, waiting: false });
    expect(pressed({ key: 'constructor' }, false)).toEqual({ act: null, waiting: false });
    expect(pressed({ key: 'Tab' }, false)).toEqual({ act: null, waiting: false });
  });
});

it('shows a tour whose every step leads to a page that is there', () => {
  expect(tourSteps.filter(({ path }) => !everyPage.includes(path))).toEqual([]);
});
