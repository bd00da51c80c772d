import type { Digit } from '../../vocabulary';
import { DIGITS, DIGIT_NAMES } from '../../vocabulary';
import type { Atom } from '../observation/units';
import type { Hypothesis } from './hypothesis';
import type { Parts } from './state';
import { DAYS, each, state } from './state';

const halves = (digit: Digit, part: number): Parts => ({ [`${digit}r`]: part, [`${digit}u`]: part });
const bonesOf = (digit: Digit): readonly string[] => (digit === 'D1' ? ['proximal', 'distal'] : ['proximal', 'middle', 'distal']).map(part => `${digit}.${part}-phalanx`);
const flexorsOf = (digit: Digit): readonly Atom[] => (digit === 'D1' ? ['FPL'] : [`FDP${digit[1]}` as Atom, `FDS${digit[1]}` as Atom]);

/** Pulleys, sheaths, bones, joints, ligaments, vessels and infections of one digit. */
export const DIGIT_STATES: readonly Hypothesis[] = DIGITS.flatMap(digit => {
  const name = DIGIT_NAMES[digit];
  const joints = digit === 'D1' ? ['D1.MCP', 'D1.IP'] : [`${digit}.MCP`, `${digit}.PIP`, `${digit}.DIP`];
  const sheath = `${digit}.sheath`;
  return [
    state({ id: `trigger.${digit}`, kind: 'soft tissue', structure: `A1 pulley of the ${name}`, level: 'trigger finger', prior: 0.7, signs: { ...each(['triggering'], [digit], 0.93), 'triggering@fingers': 0.8, ...each(['tenderness', 'nodule'], [`${digit}.A1`], 0.7) }, source: "Green's 2022 [memory]" }),
    state({
      id: `sheath-infection.${digit}`, overAfter: DAYS.infection, kind: 'infection', structure: `flexor sheath of the ${name}`, level: 'infection', prior: 0.4, place: digit,
      losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.4])),
      signs: {
        // 0.914-0.971 each, Kennedy 2017; 97, 72, 69, 65 % of 75 patients, Pang 2007 [checked]: between the two
        [`swelling@${digit}`]: 0.96, ...each(['swelling'], ['hand', 'hand.dorsum', 'palm'], 0.4), ...each(['passive.stretch.pain', 'movement.pain'], [digit], 0.83), 'passive.stretch.pain@fingers': 0.5, [`flexed.posture@${digit}`]: 0.8, 'flexed.posture@fingers': 0.5, ...each(['tenderness'], [sheath, `${digit}.volar`, digit, `${digit}.A1`], 0.8),
        ...each(['erythema', 'hot'], [digit], 0.7), [`wound@${digit}`]: 0.5, [`pus@${digit}`]: 0.3, 'pain@power': 0.7, [`pain@${digit}`]: 0.95,
      }, source: 'Kennedy 2017; Pang 2007 [checked]',
    }),
    state({
      id: `ischaemia.${digit}`, overAfter: DAYS.ischaemia, kind: 'vessel', structure: `blood supply of the ${name}`, level: 'digital arteries', prior: 0.4, place: digit, losses: halves(digit, 0.6), pairs: true,
      signs: { ...each(['refill'], [digit], 0.92), ...each(['pale', 'perfusion'], [digit], 0.88), ...each(['cold'], [digit], 0.8), ...each(['allen.digital'], [digit], 0.7), 'allen.digital@fingers': 0.5, [`wound@${digit}`]: 0.6 },
      source: "Green's 2022 [memory]; BSSH draft standards [checked]",
    }),
    state({
      id: `fracture.${digit}`, overAfter: DAYS.fracture, kind: 'bone', structure: `phalanx, metacarpal or joint of the ${name}`, level: 'fracture or dislocation', prior: 0.9, place: digit, pairs: true,
      losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.3])),
      signs: {
        [`deformity@${digit}`]: 0.55, [`dislocation@${digit}`]: 0.3, [`rotation@${digit}`]: 0.3,
        ...each(['tenderness', 'deformity', 'swelling', 'crepitus'], [`metacarpal${digit[1]}`, ...bonesOf(digit)], 0.5), ...each(['swelling', 'bruising'], ['hand', 'hand.dorsum'], 0.45), 'rotation@fingers': 0.25, ...each(['swelling', 'bruising', 'tenderness'], [digit], 0.85), ...each(['tenderness', 'swelling'], [...joints, ...(digit === 'D1' ? [] : ['metacarpals', 'knuckles'])], 0.3), [`crepitus@${digit}`]: 0.3,
        ...each(['movement.pain'], [digit], 0.8), ...each(['passive.range', 'range'], [digit, ...joints], 0.5), [`pain@${digit}`]: 0.95, 'pain@power': 0.7, [`wound@${digit}`]: 0.2, [`open.fracture@${digit}`]: 0.15,
      }, source: "Green's 2022 [memory]; sensitivities a design choice",
    }),
    state({
      id: `tip-infection.${digit}`, overAfter: DAYS.infection, kind: 'infection', structure: `nail fold or pulp of the ${name}`, level: 'infection', prior: 0.5, place: digit, losses: halves(digit, 0.1),
      signs: { ...each(['paronychia', 'felon'], [digit], 0.5), ...each(['erythema', 'hot'], [digit], 0.8), [`swelling@${digit}`]: 0.7, ...each(['tenderness', 'swelling', 'erythema'], [`${digit}.pulp`, `${digit}.nail`], 0.85), [`tenderness@${digit}`]: 0.7, ...each(['pus'], [digit, `${digit}.nail`, `${digit}.pulp`], 0.5), [`pain@${digit}`]: 0.95, [`wound@${digit}`]: 0.25 },
      source: "Green's 2022 [memory]; sensitivities a design choice",
    }),
    state({
      id: `joint.${digit}`, kind: 'joint', structure: `joints of the ${name}`, level: 'stiff or painful', prior: 0.8, place: digit,
      losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.3])),
      signs: { ...each(['passive.range'], [digit, ...joints], 0.8), ...each(['range'], [digit, ...joints], 0.8), ...each(['tenderness', 'movement.pain', 'swelling', 'effusion'], joints, 0.65), [`swelling@${digit}`]: 0.4, 'pain@power': 0.6, [`deformity@${digit}`]: 0.25, [`fixed.flexion@${digit}`]: 0.4, [`pain@${digit}`]: 0.8 },
      source: 'Common practice, no source',
    }),
    ...(digit === 'D1' ? [] : [
    state({ id: `sagittal-band.${digit}`, kind: 'ligament', structure: `sagittal band of the ${name}`, level: 'extensor tendon slips at the MCP joint (zone 5)', prior: 0.25, place: digit, losses: { [`ED${digit[1]}`]: 0.35 }, signs: { [`tendon.slip@${digit}`]: 0.85, 'tendon.slip@knuckles': 0.8, ...each(['tenderness', 'swelling'], [`${digit}.MCP`, `${digit}.sagittal-band`, 'knuckles'], 0.7), [`extension.lag@${digit}.MCP`]: 0.4, 'pain@power': 0.4 }, source: "Green's 2022 [memory]; sensitivities a design choice" }),
    state({ id: `ligament.${digit}`, kind: 'ligament', structure: `collateral ligaments and volar plate of the ${name}`, level: 'sprain or rupture', prior: 0.6, place: digit, signs: { [`laxity@${digit}`]: 0.55, ...each(['tenderness', 'swelling'], [`${digit}.PIP`], 0.75), ...each(['tenderness', 'swelling'], [`${digit}.MCP`, `${digit}.DIP`], 0.3), ...each(['tenderness'], ['', '.MCP', '.PIP', '.DIP'].flatMap(joint => ['RCL', 'UCL', 'plate'].map(part => `${digit}${joint}.${part}`)), 0.7), [`swelling@${digit}`]: 0.5, ...each(['passive.range', 'range'], [digit, `${digit}.PIP`], 0.5), 'pain@power': 0.4, [`pain@${digit}`]: 0.9 }, source: "Green's 2022 [memory]; sensitivities a design choice" }),
    state({ id: `pulley.${digit}`, kind: 'soft tissue', structure: `A2 to A4 pulleys of the ${name}`, level: 'strain or rupture', prior: digit === 'D3' || digit === 'D4' ? 0.15 : 0.06, place: digit, losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.2])), signs: { ...each(['tenderness', 'swelling'], [`${digit}.A2`, `${digit}.A3`, `${digit}.A4`], 0.75), [`tenderness@${digit}.volar`]: 0.7, [`swelling@${digit}`]: 0.4, [`passive.range@${digit}`]: 0.2, 'pain@power': 0.7, [`pain@${digit}`]: 0.9 }, source: "Green's 2022 [memory]; sensitivities a design choice" }),
    state({
      id: `joint-infection.${digit}`, overAfter: DAYS.infection, kind: 'infection', structure: `MCP joint of the ${name}`, level: 'infection', prior: 0.2, place: digit, losses: { [`ED${digit[1]}`]: 0.3, [`LUM${Number(digit[1]) - 1}`]: 0.3 },
      signs: {
        ...each(['swelling', 'tenderness', 'movement.pain', 'hot', 'erythema'], [`${digit}.MCP`], 0.88), ...each(['swelling'], ['knuckles', 'hand.dorsum'], 0.6), ...each(['passive.range', 'range'], [`${digit}.MCP`], 0.8), 'pain@power': 0.7,
        [`wound@${digit}`]: 0.75, 'wound@hand.dorsum': 0.4, [`pus@${digit}.MCP`]: 0.4, [`fight.bite@${digit}`]: 0.6, 'fight.bite@hand.dorsum': 0.4,
      }, source: 'Patzakis 1987 [checked, via secondary]; sensitivities a design choice',
    })]),
  ];
});
