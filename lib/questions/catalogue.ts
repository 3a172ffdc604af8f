import type { QuestionId } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import type { Statement } from '../engine/statement.ts';
import { livesTable, pageColumnsStatement } from '../lives/index.ts';
import { codesStatement, levelsStatement } from './columns/cut-codes.ts';
import { episodesStatement } from './columns/episode-columns.ts';
import { lifeColumnsStatement } from './columns/life-columns.ts';
import { outcomesStatement } from './columns/outcome-columns.ts';
import { seenLeaksStatement } from './columns/seen-leaks.ts';
import { deviationsToldStatement } from './ahead/teardown-sample.ts';
import { pacesStatement } from './ahead/paces.ts';
import { causesColumns } from './causes/causes-columns.ts';
import { outcomeAsked } from './causes/outcome.ts';
import { teardownStatement } from './causes/teardown-findings.ts';
import { checksSeenStatement } from './detection/checks-seen.ts';
import { adjustingColumns } from './adjustment/adjusting-columns.ts';
import { measuredStatement } from './dose/measured-values.ts';
import { consequencesStatement } from './fitted/consequences.ts';
import { mixColumns } from './mix.ts';
import { intervalsStatement } from './renewal/procedure-intervals.ts';
import { earlierLivesStatement } from './repeats/earlier-lives.ts';
import { mateRenewalsStatement } from './rules/mate-renewals.ts';
import { comparedBy } from './rules/rules-evidence.ts';
import { listedCuts } from './life-list/list-columns.ts';
import { casesStatement, criticalColumn } from './safety-cases.ts';
import { scopeColumns } from './scope.ts';
import { checksStatement } from './shops/checks-of-lives.ts';
import { findingShopsStatement } from './shops/finding-shops.ts';
import { severeEventsStatement } from './shops/severe-events.ts';
import { shopsColumns } from './shops/shops-columns.ts';

/**
 * Every statement a question runs under a view, by what it is for; the tests have both engines
 * explain and run each, and receipts show them.
 * @param fromRecords whether inspections stand behind the lives (`LivesSource.fromRecords`)
 */
export function queryCatalogue(
  question: QuestionId,
  view: View,
  fromRecords: boolean,
): Readonly<Record<string, Statement>> {
  if (question === 'causes') return causesStatements(view, fromRecords);
  if (question === 'shops') return shopsStatements(view, fromRecords);
  if (question === 'detection') return detectionStatements(view, fromRecords);
  if (question === 'rules') return rulesStatements(view, fromRecords);
  if (question === 'dose') return doseStatements(view, fromRecords);
  if (question === 'after-change') return afterChangeStatements(view);
  if (question === 'savings') return savingsStatements(view);
  if (question === 'renewal') return renewalStatements(view, fromRecords);
  if (question === 'ahead') return aheadStatements(view, fromRecords);
  if (question === 'repeats') return repeatsStatements(view, fromRecords);
  const ages = question === 'seal-life';
  const component = ages ? view.component : 'seal';
  const table = livesTable(component);
  const cuts = new Set([...scopeColumns(view), ...mixColumns(view), 'unit_id', 'shop', ...(ages ? [] : ['position'])]);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(ages && fromRecords ? { 'leaks seen': seenLeaksStatement(component) } : {}),
    ...(ages ? {} : { episodes: episodesStatement }),
    ...(criticalColumn(view) === null ? {} : { cases: casesStatement(component, [0, 1]) }),
  };
}

function causesStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const { component, kind } = outcomeAsked(view);
  const table = livesTable(component);
  const cuts = causesColumns(view);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries(cuts.map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries(cuts.map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(kind === 'component' ? {} : { outcomes: outcomesStatement }),
    cases: casesStatement(component, [0, 1]),
    ...(fromRecords ? { teardowns: teardownStatement } : {}),
  };
}

function shopsStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const { component, kind } = outcomeAsked(view);
  const table = livesTable(component);
  const cuts = shopsColumns(view);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries(cuts.map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries(cuts.map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(kind === 'component' ? {} : { outcomes: outcomesStatement }),
    ...(fromRecords
      ? { finders: findingShopsStatement(component), checks: checksStatement(component), severe: severeEventsStatement }
      : {}),
  };
}

function detectionStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const cuts = new Set([...scopeColumns(view), 'lubricant', 'unit_id', 'shop']);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(view.component === 'seal' ? { outcomes: outcomesStatement } : {}),
    ...(fromRecords
      ? { 'leaks seen': seenLeaksStatement(view.component), checks: checksSeenStatement(view.component) }
      : {}),
  };
}

function rulesStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const by = comparedBy(view);
  const { covariates } = adjustingColumns(view, by);
  const cuts = by.length === 0 ? [] : covariates;
  return {
    ...detectionStatements({ ...view, by }, fromRecords),
    ...Object.fromEntries(cuts.map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries(cuts.map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(fromRecords ? { mates: mateRenewalsStatement(view.component) } : {}),
  };
}

function doseStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const { component, kind } = outcomeAsked(view);
  const table = livesTable(component);
  const { covariates, strata } = adjustingColumns(view, []);
  const cuts = new Set([...Object.keys(view.where), ...covariates, ...strata, 'unit_id']);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(kind === 'component' ? {} : { outcomes: outcomesStatement }),
    ...(fromRecords ? { measured: measuredStatement(component) } : {}),
  };
}

/** What a change must not make worse is looked for at the wheel ends of seals, whatever is asked of. */
function afterChangeStatements(view: View): Readonly<Record<string, Statement>> {
  const { component } = outcomeAsked(view);
  const table = livesTable(component);
  const cuts = shopsColumns({ ...view, by: [] });
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries(cuts.map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries(cuts.map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    outcomes: outcomesStatement,
  };
}

function savingsStatements(view: View): Readonly<Record<string, Statement>> {
  const { component, kind } = outcomeAsked(view);
  const table = livesTable(component);
  const cuts = causesColumns({ ...view, by: [] });
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries(cuts.map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries(cuts.map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    ...(kind === 'component' ? {} : { outcomes: outcomesStatement }),
  };
}

function repeatsStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const { covariates, strata } = adjustingColumns(view, ['life_number', 'prior_failures']);
  const others = ['unit_id', 'shop', 'position', 'life_number'];
  const cuts = new Set([...Object.keys(view.where), ...covariates, ...strata, ...others]);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    earlier: earlierLivesStatement(view.component),
    ...(fromRecords ? { 'leaks seen': seenLeaksStatement(view.component) } : {}),
  };
}

function renewalStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const cuts = new Set([...scopeColumns(view), 'hub_build', 'role', 'unit_id', 'shop']);
  return {
    lives: lifeColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    consequences: consequencesStatement(view.component, fromRecords),
    ...(fromRecords
      ? { 'leaks seen': seenLeaksStatement(view.component), intervals: intervalsStatement(view.component) }
      : {}),
  };
}

function aheadStatements(view: View, fromRecords: boolean): Readonly<Record<string, Statement>> {
  const table = livesTable(view.component);
  const cuts = new Set([...scopeColumns(view), ...listedCuts]);
  return {
    lives: lifeColumnsStatement(table),
    'lives listed': pageColumnsStatement(table),
    ...Object.fromEntries([...cuts].map((column) => [`labels of ${column}`, levelsStatement(table, column)])),
    ...Object.fromEntries([...cuts].map((column) => [`codes of ${column}`, codesStatement(table, column)])),
    consequences: consequencesStatement(view.component, fromRecords),
    paces: pacesStatement(view.component, fromRecords),
    'deviations told': deviationsToldStatement(view.component),
    ...(fromRecords ? { 'leaks seen': seenLeaksStatement(view.component) } : {}),
  };
}
