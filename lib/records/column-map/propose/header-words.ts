/** Abbreviations and other languages in headers, each as the words of the tables below. */
const meant: Readonly<Record<string, string>> = {
  'dt dte datum fecha': 'date',
  'no nr num nbr nummer numero': 'number',
  'odo odom kilometerstand km-stand tacho kilometrage kilometraje': 'odometer',
  'mls mile': 'miles',
  'mlg milage meterage': 'mileage',
  'kms kilometer kilometers kilometre kilometres': 'km',
  'wo ro workorder repairorder auftrag orden': 'order',
  'veh vehicle vehicles fahrzeug vehicule vehiculo equip equipment eq asset truck trk fleet unidad wagen kfz': 'unit',
  'id key code': 'id',
  'pos posn posit wheelend positie lage emplacement posicion': 'position',
  'ax axl axles achse essieu eje': 'axle',
  'seite cote lado': 'side',
  'tech techn mechanic mech employee mechaniker': 'technician',
  'tq torq trq torques drehmoment couple par': 'torque',
  'brg brgs bearings lager': 'bearing',
  'gskt gkt gaskets dichtung': 'gasket',
  'lub lube lubricants schmierstoff oil grease': 'lubricant',
  'cmt cmts comments note notes remark remarks memo text narrative bemerkung description desc': 'comment',
  'insp inspections': 'inspection',
  'fail failed failures defect ausfall defaut schaden': 'failure',
  'repl replace replacement installed renewed changed': 'replaced',
  'ep endplay lagerspiel': 'end-play',
  'hrs hr hour stunden': 'hours',
  'lining linings shoes': 'lining',
  'loc terminal branch depot garage facility yard werkstatt atelier taller location': 'shop',
  'svc serv jobs job maintenance repair rep repairs repaired reparatur reparation reparacion': 'service',
  'closed completed complete completion finished finish invoice invoiced out': 'closed',
  'opened created start started received reported in': 'opened',
  'kind category cat art': 'type',
  'acq purchase purchased bought': 'acquired',
  'cfg config configuration layout': 'configuration',
  'msrd meas measured gemessen': 'measured',
  inr: 'inner',
  'otr jam': 'outer',
  seat: 'seating',
  lvl: 'level',
  'contam contaminated soaked': 'contaminated',
  'component components item items parts': 'parts',
  mat: 'material',
  'lh rh': 'side',
  oos: 'out-of-service',
  'downtime down': 'downtime',
  'amount total price kosten': 'cost',
  'mode symptom complaint schadensart': 'mode',
  // Of one language more than others in full, as its headers are one long word.
  'am vom': 'date',
  'ausgefuhrt erledigt': 'done',
  'festgestellt gefunden': 'found',
  eingang: 'opened',
  rechnung: 'closed',
  teile: 'parts',
  charge: 'lot',
  grund: 'reason',
  ort: 'site',
  zeile: 'line',
  sorte: 'grade',
  muttern: 'nuts',
  nabenbauart: 'hub build',
  nabenwerkstoff: 'hub material',
  fullstand: 'fill level',
  zuruckgedreht: 'backed off',
  setzen: 'seating',
  innen: 'inner',
  'außen aussen kontermutter': 'outer',
  abweichungen: 'deviations',
  prufliste: 'checklist',
  vollstandig: 'complete',
  'belag belage': 'lining',
  verolt: 'contaminated',
  ersetzt: 'replaced',
  rad: 'wheel',
  verloren: 'lost',
  stillgelegt: 'out-of-service',
  standzeit: 'downtime',
  zerlegt: 'teardown',
  befund: 'findings',
};

const whole = new Map(
  Object.entries(meant).flatMap(([words, word]) => words.split(' ').map((one) => [one, word] as const)),
);

/** Words of headers that say nothing of their own. */
const noise = new Set([
  'the',
  'of',
  'at',
  'for',
  'and',
  'a',
  'on',
  'is',
  'was',
  'value',
  'field',
  'name',
  'by',
  'der',
  'durch',
  'de',
  'la',
  'le',
]);

/** A header as its telling words: camel case and `_` parted, abbreviations written out, units in brackets kept. */
export function headerWords(header: string): string[] {
  return header
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll('#', ' number ')
    .toLowerCase()
    .replaceAll(/end[\s_-]?play/g, 'endplay')
    .replaceAll(/work[\s_-]?order|repair[\s_-]?order/g, 'wo')
    .replaceAll(/out[\s_-]of[\s_-]service/g, 'oos')
    .replaceAll(/wheel[\s_-]?end/g, 'wheelend')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !noise.has(word))
    .flatMap((word) => whole.get(word)?.split(' ') ?? word);
}

/** Ways in which headers name our columns, likeliest first; words as `headerWords` gives them. */
export const headerPhrases: Readonly<Record<string, string>> = {
  unit_id: 'unit number, unit id, unit, tractor number, trailer number, trailer, tractor, unit unit',
  date: 'service date, date service, inspection date, failure date, reading date, date, work date, date done, date performed, found date, date found, event date',
  miles:
    'odometer, mileage, miles, meter, meter reading, odometer reading, miles service, service mileage, hub odometer, hubodometer, km, reading, unit mileage, mileage service',
  position: 'position, wheel position, wheel, axle position, position wheel, service position, position id',
  axle: 'axle, axle number, axle position',
  side: 'side, wheel side, side l r, l r',
  service_id:
    'service id, service number, service line id, line id, order line, line number, record id, record number, entry id, id, line, transaction id',
  failure_id:
    'failure id, failure number, record id, record number, id, case number, claim number, report number, incident number',
  inspection_id: 'inspection id, inspection number, record id, id, sheet number, report number',
  order_id:
    'order number, order id, order, service order, service card number, invoice number, ticket, ticket number, unit order',
  shop: 'shop, shop id, service shop, shop number, shop service, performed',
  home_shop: 'home shop, shop, home, domicile, assigned shop, base',
  site: 'site, site type, service site, shop type, where service, where done, vendor type, place',
  technician_key: 'technician, fitter, technician id, technician number, performed technician',
  reason: 'reason, reason service, service reason, service type, work reason, reason id, why, service class',
  replaced: 'replaced, parts, parts replaced, parts used, replaced parts, parts list, part',
  seal_lot: 'seal lot, lot, lot number, batch, seal batch, seal lot number',
  hub_build: 'hub build, hub type, build, hub system, hub',
  nut_system: 'nut system, nut type, nuts, nut, spindle nut',
  hub_material: 'hub material, material',
  lubricant: 'lubricant, lubricant type, lubricant used, hub lubricant',
  lubricant_grade: 'lubricant grade, grade, viscosity',
  fill_level: 'fill level, lubricant level, fill, level',
  lubricant_level: 'lubricant level, level, fill level',
  lubricant_condition: 'lubricant condition, condition, lubricant look',
  seating_torque_ftlb: 'seating torque, torque seating, initial torque, pre torque',
  inner_torque_ftlb:
    'inner torque, inner nut torque, torque inner, torque inner nut, final torque, adjusting nut torque, torque',
  outer_torque_ftlb:
    'outer torque, outer nut torque, torque outer, torque outer nut, outer nut outer torque, outer nut',
  nut_backed_off: 'nut backed off, backed off, back off, backoff',
  end_play_in: 'end-play, end-play in, measured end-play, final end-play, play',
  end_play_measured: 'end-play measured, measured end-play yn, end-play measured y n, play measured, end-play check',
  step_cavity_cleaned: 'cavity cleaned, cavity, hub cleaned, cleaned',
  step_seal_tool_used: 'seal tool used, seal tool, tool used',
  step_seal_seated: 'seal seated, seated',
  step_spacer_fitted: 'spacer fitted, spacer replaced, spacer',
  step_spacer_oriented: 'spacer oriented, spacer orientation, spacer orientation ok',
  step_hub_supported: 'hub supported, dolly used, hub support, dolly',
  step_lock_engaged: 'lock engaged, lock, locked',
  step_outer_nut_torqued: 'outer nut torqued, outer nut done',
  step_gasket_new: 'gasket new, new gasket',
  step_lubricant_matched: 'lubricant matched, lubricant match, correct lubricant',
  step_fill_checked: 'fill checked, level checked, fill check',
  step_spindle_dressed: 'spindle dressed, spindle, spindle cleaned',
  step_vent_checked: 'vent checked, vent',
  step_mark_fitted: 'mark fitted, tag fitted, mark',
  deviations: 'deviations, deviation, deviation codes',
  checklist_complete: 'checklist complete, checklist closed, checklist, sheet closed',
  comment: 'comment, service comment, free comment',
  kind: 'inspection type, type, inspection level',
  checked: 'checked, looked, inspected, checked y n',
  leak: 'leak, leak severity, severity, leak level, leak rating, leakage',
  leak_at: 'leak shop, leak at, leak where, leak position, leak point, leak source',
  lining_contaminated: 'lining contaminated, contaminated lining, contaminated, oil on lining, lubricant lining',
  found_by: 'found, found how, opened, detection, detected, how found, discovered, detection method, source, found who',
  mode: 'mode, failure mode, failure, failure type, failure id, cause, problem, what failed, mode failure',
  repair_service_id:
    'service id, service number, service service id, service order, fixed service, service line, service line id, service line number, fixed line',
  linings_replaced: 'lining replaced, replaced lining, new lining',
  wheel_lost: 'wheel lost, lost wheel, wheel off, wheel separation',
  wheel_lost_by: 'wheel lost cause, lost cause, wheel off cause',
  out_of_service: 'out-of-service, out-of-service y n',
  downtime_hours: 'downtime, downtime hours, hours downtime, hours closed',
  cost: 'cost, service cost, costs, cost usd, cost eur',
  teardown_deviations: 'teardown deviations, teardown, teardown findings',
  unit_kind: 'unit type, type, unit class, body type, body',
  axle_roles: 'axle roles, configuration, axle configuration, axle, axle number, drive type, roles',
  acquired: 'acquired, new used, condition acquired, acquired as',
  in_service_date:
    'opened service date, service opened date, date opened service, opened service, service date, delivery date, delivered, acquired date, date acquired',
  in_service_miles:
    'opened service miles, opened service odometer, service opened miles, start miles, start odometer, miles acquired, opened service mileage, delivery miles, delivery odometer, delivered miles',
  out_date:
    'closed date, date closed, sold date, date sold, disposal date, disposed, disposed date, sold, retired, retired date, closed service date',
  out_miles:
    'closed miles, miles closed, sold miles, closed odometer, miles sold, disposal miles, disposal odometer, retired miles',
  out_reason: 'closed reason, reason closed, disposal reason, disposal, status',
  duty: 'duty, application, operation, service class, work type, use, duty class',
  former_ids:
    'former ids, former id, old unit number, old number, old id, old unit, previous number, previous unit, former unit, alias',
  source: 'source, meter source, reading source, reading type, meter type',
  event: 'event, meter event, reset, event type',
  miles_before: 'miles before, odometer before, old odometer, before',
};

/** Words by which a date is one of opening or of closing an order, not of the work. */
export const openedWords = new Set(['opened', 'entered', 'posted', 'scheduled']);
export const closedWords = new Set(['closed', 'posted', 'paid', 'printed']);
