import type { Random } from '../../../data/demo/random.ts';
import { pick } from '../pick.ts';

const odd: readonly unknown[] = [
  null,
  '',
  0,
  -1,
  1e308,
  [],
  {},
  true,
  'x',
  '\u0000',
  '__proto__',
  '(a+)+$',
  '*'.repeat(200),
  '<script>ran=1</script>',
  ['x'],
  { x: 1 },
  '9999-99-99',
];

/** JSON with one of its values, or one of its names, made something else. */
export function spoiltWords(value: unknown, random: Random): unknown {
  const places: { holder: Record<string, unknown>; name: string }[] = [];
  const whole = structuredClone(value);
  const walk = (at: unknown): void => {
    if (typeof at !== 'object' || at === null) return;
    for (const name of Object.keys(at)) {
      places.push({ holder: at as Record<string, unknown>, name });
      walk((at as Record<string, unknown>)[name]);
    }
  };
  walk(whole);
  const { holder, name } = pick(random, places);
  const was = holder[name];
  if (random.chance(0.2)) Reflect.deleteProperty(holder, name);
  else if (random.chance(0.2)) Object.assign(holder, { [String(pick(random, odd))]: was });
  else
    holder[name] = typeof was === 'string' && random.chance(0.5) ? was + String(pick(random, odd)) : pick(random, odd);
  return whole;
}
