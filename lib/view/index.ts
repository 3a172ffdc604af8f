export { livesAtRisk, livesBehind, type Counted, type LivesBehind } from './lives-behind.ts';
export { listedView } from './listed-view.ts';
export { searchToPick, searchWithPick } from './pick-in-search.ts';
export { comparedRecords, linkRecords, recordsInSearch, withRecords, type LinkRecords } from './records-in-search.ts';
export { searchToView } from './search-to-view.ts';
export { viewToSearch } from './view-to-search.ts';
