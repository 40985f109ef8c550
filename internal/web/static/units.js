// Units: what the service knows (GET /v1/units), and which one this person uses.

import { language, number, say } from './language.js';
import { keep, kept } from './storage.js';

// What is measured on the sheet, each with its quantity at the service and the
// unit that the two systems begin with.
export const measures = {
  jug: { quantity: 'volume', us: 'fl_oz_us', metric: 'mL' },
  tank: { quantity: 'volume', us: 'gal_us', metric: 'L' },
  time: { quantity: 'time', us: 's', metric: 's' },
  hours: { quantity: 'time', us: 'h', metric: 'h' },
  course: { quantity: 'length', us: 'ft', metric: 'm' },
  width: { quantity: 'length', us: 'in', metric: 'cm' },
  speed: { quantity: 'speed', us: 'mph', metric: 'km/h' },
  pressure: { quantity: 'pressure', us: 'psi', metric: 'bar' },
  flow: { quantity: 'flow_rate', us: 'gal_us/min', metric: 'L/min' },
  rate: { quantity: 'application_rate', us: 'gal_us/acre', metric: 'L/ha' },
  product: { quantity: 'application_rate', us: 'pt_us/acre', metric: 'L/ha', also: ['mass_rate'] },
  area: { quantity: 'area', us: 'acre', metric: 'ha' },
  share: { quantity: 'ratio', us: '%', metric: '%' },
  turns: { quantity: 'rotational_speed', us: 'rpm', metric: 'rpm' },
  mark: { quantity: 'volume', us: 'fl_oz_us', metric: 'mL', also: ['time', 'length', 'pressure'] }, // of any instrument
};

let known = [];

export function learnUnits(list) {
  known = list;
}

/** The symbols that may stand beside a measure. */
export function symbols(measure) {
  const { quantity, also = [] } = measures[measure];
  return known.filter((unit) => unit.quantity === quantity || also.includes(unit.quantity)).map((unit) => unit.symbol);
}

export function system() {
  return kept('system', 'us');
}

/** The unit that this person used last for a measure. */
export function unitFor(measure) {
  return kept('units', {})[measure] ?? measures[measure][system()];
}

export function rememberUnit(measure, unit) {
  keep('units', { ...kept('units', {}), [measure]: unit });
}

export function useSystem(name) {
  keep('system', name);
  keep('units', {});
}

/** A symbol of the service as people write it: fl_oz_us/acre is US fl oz/acre, oz fl/acre in Spanish. */
export function unitName(symbol) {
  return symbol
    .replace(/([a-z_]+)_(us|imp)\b/g, (_, name, which) => say(`unit.${which}`, { name: name === 'fl_oz' ? say('unit.flOz') : name }))
    .replace('ft2', 'ft²')
    .replace('m2', 'm²')
    .replace('m3', 'm³');
}

/** A quantity of an answer, in words: 110.8 US gal/acre; 12.7% in English, 12,7 % in Spanish. */
export function quantity(q) {
  const glue = q.unit !== '%' ? '\u00a0' : language() === 'en' ? '' : '\u202f';
  return `${number(q.value, q.unit === '%' ? 3 : 4)}${glue}${unitName(q.unit)}`;
}

/** A quantity of an answer with what it is uncertain by, where that is known. */
export function near(q, uncertainty) {
  return q && uncertainty ? `${quantity(q)} ±\u00a0${number(uncertainty.expanded.value, 2)}` : q;
}

/** A range of an answer whose ends share a unit, without it; one end may be open. */
export function span({ low, high }, digits = 4) {
  if (!low) return say('range.to', { value: number(high.value, digits) });
  if (!high) return say('range.from', { value: number(low.value, digits) });
  return `${number(low.value, digits)}–${number(high.value, digits)}`;
}
