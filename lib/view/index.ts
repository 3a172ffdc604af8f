export { searchToView, type LinkView } from './search-to-view.ts';
export { viewToSearch } from './view-to-search.ts';
