// What the sheet asks, in the order of the job. A field is named by the JSON
// pointer of the member that it fills; nothing else ties it to the API. Its words
// are under field + pointer in words.js.

import { measures } from './units.js';

const sides = ['left', 'center', 'right'];
const position = { at: 'position', kind: 'choice', options: sides };
const label = { at: 'label', kind: 'text' };
const q = (at, measure, more) => ({ at, kind: 'quantity', measure, ...more });
const range = (at, measure) => [q(`${at}/low`, measure), q(`${at}/high`, measure)];

export const calibrations = 'calibrations';

// part is the member of the answer that tells how a step went, stage its stage in
// GET /v1/procedure.
export const steps = [
  { id: 'prepare', stage: 'prepare' },
  {
    id: 'machine',
    stage: 'plan',
    blocks: [
      { fields: [{ at: '/label', kind: 'text' }, { at: '/machine/label', kind: 'text' }, q('/machine/tankVolume', 'tank')] },
      { title: 'nozzle', fields: [q('/nozzle/ratedFlowRate', 'flow'), q('/nozzle/ratedPressure', 'pressure'), ...range('/nozzle/pressureRange', 'pressure')] },
      { fold: 'size', fields: [
        { at: '/nozzle/size', kind: 'choice', options: ['01', '015', '02', '025', '03', '04', '05', '06', '08', '10', '15', '20'] },
        { at: '/nozzle/sizeRating', kind: 'choice', options: ['iso_3_bar', 'us_40_psi'] },
      ] },
      { fold: 'pulse', fields: [q('/dutyCycle', 'share'), ...range('/planning/dutyCycleLimits', 'share')] },
      { title: 'width', fields: [{ at: '/machine/bedsCovered', kind: 'count' }, q('/machine/bedWidth', 'width'), { at: '/machine/nozzlesPerBed', kind: 'count' }, q('/machine/rowSpacing', 'width'), q('/machine/sprayedWidthPerNozzle', 'width'), { at: '/machine/sides', kind: 'several', options: sides }] },
      { title: 'drive', fields: [{ at: '/machine/gear', kind: 'text' }, q('/machine/engineSpeed', 'turns'), { at: '/rateController', kind: 'yesno' }] },
      { fold: 'instruments', list: '/instruments', wanted: ['kind', 'resolution', 'scaleError'], entry: 'instrument', main: [{ at: 'kind', kind: 'choice', options: ['jug', 'stopwatch', 'tape', 'gauge'] }, q('resolution', 'mark'), q('scaleError', 'share')], folded: [{ at: 'id', kind: 'text' }] },
    ],
  },
  {
    id: 'eye',
    stage: 'maintain',
    part: 'maintenance',
    blocks: [
      { list: '/maintenance/beds', wanted: ['label', 'clean', 'replace', 'done'], entry: 'bed', main: [{ at: 'clean', kind: 'count' }, { at: 'replace', kind: 'count' }, { at: 'done', kind: 'yesno' }], folded: [label] },
      { list: '/maintenance/findings', wanted: ['item', 'finding'], entry: 'finding', main: [{ at: 'item', kind: 'text' }, { at: 'finding', kind: 'text' }] },
    ],
  },
  {
    id: 'pressure',
    stage: 'pressure',
    part: 'pressure',
    blocks: [
      { list: '/pressure/readings', wanted: ['pressure'], entry: 'reading', main: [q('pressure', 'pressure', { column: true })], folded: [position] },
      { fields: [q('/pressure/cabPressure', 'pressure')] },
      { fold: 'pressureMore', fields: [q('/pressure/maxDifference', 'pressure'), q('/pressure/targetPressure', 'pressure')] },
    ],
  },
  {
    id: 'output',
    stage: 'output',
    part: 'output',
    blocks: [
      { list: '/output/catches', wanted: ['volume'], entry: 'drop', shared: [q('time', 'time'), { at: 'nozzles', kind: 'count' }], main: [q('volume', 'jug', { column: true })], folded: [label, { at: 'nozzles', kind: 'count' }, q('time', 'time'), position] },
      { fold: 'tolerance', fields: [q('/output/tolerance/limit', 'share'), { at: '/output/tolerance/basis', kind: 'choice', options: ['rated', 'mean', 'both'] }, { at: '/output/catchPointsOnBoom', kind: 'count' }, q('/output/sprayPressure', 'pressure'), q('/output/replaceAllAbove', 'share'), { at: '/output/replaceAllFrom', kind: 'count' }] },
      { fold: 'ways', fields: [q('/output/tolerance/rated/below', 'share'), q('/output/tolerance/rated/above', 'share'), q('/output/tolerance/mean/below', 'share'), q('/output/tolerance/mean/above', 'share')] },
      { fold: 'followUps', list: '/output/followUps', wanted: ['volume'], entry: 'followUp', main: [{ at: 'replaces', kind: 'text' }, q('volume', 'jug'), q('time', 'time')], folded: [label, { at: 'nozzles', kind: 'count' }] },
    ],
  },
  {
    id: 'speed',
    stage: 'speed',
    part: 'speed',
    blocks: [
      { list: '/speed/runs', wanted: ['time'], entry: 'run', shared: [q('courseLength', 'course')], main: [q('time', 'time', { column: true })], folded: [q('courseLength', 'course')] },
    ],
  },
  {
    id: 'target',
    stage: 'rate',
    part: 'rate',
    blocks: [
      { fields: [q('/target/applicationRate', 'rate'), { at: '/target/rateBasis', kind: 'choice', options: ['treated', 'field'] }, q('/target/labelMaximum', 'rate'), q('/target/labelMinimum', 'rate'), q('/target/rateTolerance', 'share')] },
      { title: 'limits', fields: [...range('/limits/groundSpeed', 'speed'), ...range('/limits/sprayPressure', 'pressure')] },
      { fold: 'liquid', fields: [q('/relativeDensity', 'share', { unit: '1' })] },
      { fold: 'gears', list: '/planning/gears', wanted: ['label', 'groundSpeed'], entry: 'gear', main: [label, q('groundSpeed', 'speed'), q('engineSpeed', 'turns')] },
      { fold: 'shelf', list: '/planning/nozzles', wanted: ['label', 'ratedFlowRate'], entry: 'nozzle', main: [label, q('ratedFlowRate', 'flow'), q('ratedPressure', 'pressure')] },
      { fold: 'pump', fields: [
        ...range('/planning/engineSpeedLimits', 'turns'), q('/planning/ratedShaft/engineSpeed', 'turns'),
        { at: '/planning/pump/type', kind: 'choice', options: ['positive_displacement', 'centrifugal'] },
        { at: '/planning/pump/drive', kind: 'choice', options: ['shaft', 'independent'] },
        { at: '/planning/pump/regulation', kind: 'choice', options: ['relief_valve', 'none', 'rate_controller'] },
      ] },
      { fold: 'areaCheck', fields: [q('/areaCheck/volumeUsed', 'tank'), q('/areaCheck/courseLength', 'course'), q('/areaCheck/width', 'course'), { at: '/areaCheck/passes', kind: 'count' }, q('/areaCheck/area', 'area')] },
      { fold: 'schedule', fields: [{ at: '/schedule/measuredOn', kind: 'date' }, { at: '/schedule/nextSeasonStart', kind: 'date' }, q('/schedule/calibrateEvery', 'hours'), q('/schedule/usedSince', 'hours')] },
      { fold: 'cost', fields: [{ at: '/cost/mix/amount', kind: 'number' }, { at: '/cost/mix/currency', kind: 'text' }, q('/cost/perArea', 'area'), q('/cost/plannedArea', 'area')] },
    ],
  },
  { id: 'result' },
  { id: 'plans', stage: 'correct', part: 'correction' },
  { id: 'mix', stage: 'mix' },
  { id: 'record', stage: 'keep' },
];

/** The tank mix is a request of its own, to tank-loads. */
export const tankBlocks = [
  { fields: [q('/tankVolume', 'tank'), q('/applicationRate', 'rate'), q('/labelRate', 'rate'), q('/treatedArea', 'area')] },
  { list: '/products', wanted: ['name', 'productRate'], entry: 'product', main: [{ at: 'name', kind: 'text' }, q('productRate', 'product'),
    { at: 'role', kind: 'choice', options: ['water_conditioner', 'compatibility_agent', 'product', 'adjuvant'] },
    { at: 'formulation', kind: 'choice', options: ['wettable_powder', 'water_dispersible_granule', 'suspension', 'emulsifiable_concentrate', 'solution'] }] },
];

/** A sheet with the units of a system in every field; the numbers stay as they are. */
export function inUnitsOf(system, tree) {
  const measureAt = new Map(steps.flatMap((step) => step.blocks ?? []).flatMap((one) =>
    [...(one.fields ?? []), ...(one.shared ?? []), ...(one.main ?? []), ...(one.folded ?? [])]
      .map(({ at, measure, unit }) => [one.list ? `${one.list}/*/${at}` : at, unit ? undefined : measure])));
  const copy = (node, at) => {
    if (node === null || typeof node !== 'object') return node;
    if (Array.isArray(node)) return node.map((entry) => copy(entry, `${at}/*`));
    const members = Object.fromEntries(Object.entries(node).map(([name, value]) => [name, copy(value, `${at}/${name}`)]));
    const measure = measureAt.get(at);
    return measure ? { ...members, unit: measures[measure][system] } : members;
  };
  return copy(tree, '');
}

/** For each list of some blocks, the members that make an entry worth sending. */
export function wantedIn(blocks) {
  return Object.fromEntries(blocks.filter((block) => block.list).map((block) => [block.list, block.wanted]));
}

/** A sheet before anybody measured: places to read, drops to catch, runs to time. */
export function emptySheet(say) {
  return {
    pressure: { readings: sides.map((place) => ({ position: place })) },
    output: { catches: sides.flatMap((place) => [1, 2, 3, 4].map((n) => ({ label: `${say(`option.${place}`)} ${n}`, position: place }))) },
    speed: { runs: [{}, {}] },
  };
}

/** Of the two forms of a tolerance the one of several ways counts where any of them is filled in. */
export function oneTolerance({ output }) {
  const tolerance = output?.tolerance;
  if (!tolerance?.rated && !tolerance?.mean) return;
  delete tolerance.limit;
  delete tolerance.basis;
}

/** Where to do what a next step asks, when it names no member; the result is where nobody has to go. */
export const placeOfStep = {
  clean_by_eye: 'eye', replace_by_eye: 'eye', replace_all_by_eye: 'eye',
  read_pressure: 'pressure', finer_gauge: 'pressure', repair_boom: 'pressure', set_pressure_in_range: 'pressure', set_pressure_within_limits: 'pressure', settle_pressure: 'pressure', check_cab_gauge: 'pressure',
  catch_output: 'output', catch_longer: 'output', catch_after_repair: 'output', match_pressures: 'pressure', check_supply: 'output', catch_new_nozzle: 'output', check_reference: 'pressure', check_size: 'output',
  check_sooner: 'output', clean_and_recatch: 'output', check_and_recatch: 'output', replace: 'output', catch_each_nozzle: 'output', still_low: 'output', still_high: 'output', replace_all_and_recatch: 'output', catch_again: 'output', catch_more: 'output',
  time_runs: 'speed', run_longer: 'speed', repeat_runs: 'speed', drive_within_limits: 'speed', give_width: 'machine', set_target: 'target', aim_lower: 'target', find_disagreement: 'target', tank_over_label_maximum: 'target', over_label_maximum: 'plans', under_label_minimum: 'plans',
  choose_plan: 'plans', calibrate_controller: 'machine', change_nozzle_or_gear: 'plans', file_record: 'record',
  check_entry: 'result', settle_rate: 'result', repair_before_rate: 'result', measure_again: 'result', calibrate_again: 'result',
};

/** Where to measure again what a plan names. */
export const placeOfOperation = { 'pressure-uniformity': 'pressure', 'nozzle-acceptance': 'output', 'ground-speed': 'speed', 'application-rate': 'result' };
