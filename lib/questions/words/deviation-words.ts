/**
 * Where a deviation was present and where it was not, as they close a sentence ("one seal in four
 * had leaked …"). Keyed by the code of the record contract; every code has its entry (tested).
 */
export const deviationWords: Readonly<Record<string, { readonly yes: string; readonly no: string }>> = {
  'nut-backed-off': { yes: 'where the nut was backed off', no: 'where it was not' },
  'back-off-omitted': { yes: 'where the back-off was left out', no: 'where it was done' },
  'inner-torque-out': { yes: 'where the inner nut torque was out of limits', no: 'where it was within' },
  'outer-torque-out': { yes: 'where the outer nut torque was out of limits', no: 'where it was within' },
  'outer-nut-skipped': { yes: 'where the outer nut was not torqued', no: 'where it was' },
  'lock-not-engaged': { yes: 'where the lock was not engaged', no: 'where it was' },
  'spacer-missing': { yes: 'where the spacer was left out', no: 'where it was fitted' },
  'spacer-reversed': { yes: 'where the spacer was reversed', no: 'where it was not' },
  'mixed-components': { yes: 'where parts of another build were fitted', no: 'where they were not' },
  'lubricant-mismatch': { yes: 'where the lubricant was mismatched', no: 'where it matched' },
  'packed-in-oil-bath': { yes: 'where bearings were packed with grease in an oil bath', no: 'where they were not' },
  'seal-tool-missing': { yes: 'where the seal was driven without its tool', no: 'where the tool was used' },
  'seal-cocked': { yes: 'where the seal was cocked or not seated', no: 'where it was seated' },
  'sealant-on-seal': { yes: 'where sealant was put on the seal', no: 'where it was not' },
  'hub-hung-on-seal': { yes: 'where the hub was hung on the seal', no: 'where it was held up' },
  'gasket-reused': { yes: 'where the gasket was used again', no: 'where it was new' },
  underfilled: { yes: 'where the hub was filled too low', no: 'where it was not' },
  overfilled: { yes: 'where the hub was filled too high', no: 'where it was not' },
  'dirty-cavity': { yes: 'where the cavity was not cleaned', no: 'where it was' },
  'end-play-high': { yes: 'where end play was above the limit', no: 'where it was not' },
  'end-play-low': { yes: 'where end play was below the limit', no: 'where it was not' },
  'end-play-unmeasured': { yes: 'where end play was not measured', no: 'where it was' },
  'spindle-not-dressed': { yes: 'where the spindle was not dressed', no: 'where it was' },
  'mark-missing': { yes: 'where the mark was missing', no: 'where it was fitted' },
};
