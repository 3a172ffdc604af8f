import { wholePick, type LivesPick } from '../../shared/lives-pick.ts';
import { defaultView, type View } from '../../shared/view.ts';
import type { Component } from '../../shared/vocabulary.ts';

export interface ListedView {
  readonly asked: { readonly view: View; readonly pick: LivesPick };
  readonly component: Component;
}

/**
 * What of a view and a pick decides which lives are listed: neither the comparison, nor the horizon,
 * nor which life lies open, so that those change nothing of the list. Failure episodes are of seal lives.
 */
export function listedView(view: View, pick: LivesPick): ListedView {
  const component = pick.found === null ? view.component : defaultView.component;
  const { mode, where, installedFrom, installedTo } = view;
  return {
    asked: {
      view: { ...defaultView, component, mode, where, installedFrom, installedTo },
      pick: { ...pick, life: wholePick.life },
    },
    component,
  };
}
