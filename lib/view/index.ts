export { searchToView } from './search-to-view.ts';
export { viewToSearch } from './view-to-search.ts';
