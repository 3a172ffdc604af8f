import { many } from '../questions/fleet.ts';

/** A generator good enough to spread lives: Park & Miller's minimal standard. */
function uniform(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** Made-up seals of a large fleet, the same every time. */
export function seals(lives = 50_000) {
  const random = uniform(20241);
  const pick = <T>(values: readonly T[]): T => values[Math.floor(random() * values.length)] as T;
  return many(lives, (place) => {
    const entry = random() < 0.4 ? Math.floor(random() * 150_000) : 0;
    const life = Math.floor(420_000 * (-Math.log(random())) ** (1 / 1.4));
    const watched = entry + Math.floor(1 + random() * 250_000);
    const failed = life > entry && life <= watched;
    const exit = failed ? life : watched;
    return {
      unit_id: `U${place % Math.round(lives / 12.5)}`,
      entry_miles: entry,
      exit_miles: exit,
      exposure_miles: exit - entry,
      onset_lower_miles: failed ? Math.max(0, exit - 30_000) : exit,
      state: failed ? 'failed' : pick(['running', 'planned', 'planned', 'removed-unknown', 'unit-left']),
      mode: failed ? pick(['seal-inner', 'seal-outer', 'seal-unknown']) : null,
      lining_contaminated: failed ? pick(['yes', 'no', 'unknown']) : null,
      axle: pick([1, 2, 3, 4, 5]),
      side: pick(['left', 'right']),
      role: pick(['steer', 'drive', 'trailer', 'trailer']),
      shop: pick(['Ambleford', 'Brackwell', 'Coldmere', 'Dunhollow', 'Eastfen']),
      lubricant: pick(['oil', 'oil', 'semi-fluid', 'packed']),
      hub_build: pick(['adjusted', 'spacer', 'unitized']),
      duty: pick(['linehaul', 'regional']),
      install_date: `20${10 + Math.floor(random() * 15)}-06-01`,
      dev_nut_backed_off: pick(['yes', 'no', 'no', 'no', 'unknown', 'not-applicable']),
      mileage_quality: pick(['measured', 'measured', 'interpolated']),
    };
  });
}
