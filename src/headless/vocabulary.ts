import { PROTOCOLS } from '../examination';
import { RED_FLAGS } from '../cautions';
import { MRC_GRADES, QUALIFIERS, SIDES, SIGNS, SITES, UNITS } from '../vocabulary';

/** Every id that the output may hold, as data: "what" is sign@site. */
export const vocabulary = (): unknown => ({
  sides: SIDES, grades: MRC_GRADES, units: UNITS, qualifiers: QUALIFIERS, signs: SIGNS, sites: SITES,
  cautions: RED_FLAGS.map(({ id, title, urgency, source }) => ({ id, title, urgency, source })),
  protocols: Object.values(PROTOCOLS).map(({ id, name, purpose, stages }) => ({ id, name, purpose, stages: stages.map((stage) => ({ id: stage.id, name: stage.name, sides: stage.sides, items: stage.items.map((item) => ({ id: item.id, name: item.name, what: item.keys, anywhere: item.anywhere ?? [] })) })) })),
});
