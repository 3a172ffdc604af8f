import { describe, expect, it } from 'vitest';
import { maximise } from '../../../lib/statistics/numeric/maximise.ts';

describe('maximise', () => {
  it('one step to the top of a parabola, whatever its units', () => {
    for (const unit of [1e-6, 1, 1e6]) {
      const top = maximise(
        ([x]) => {
          const away = ((x as number) - 3 * unit) / unit;
          return {
            value: -(away ** 2),
            gradient: Float64Array.of((-2 * away) / unit),
            hessian: Float64Array.of(-2 / unit ** 2),
          };
        },
        [50 * unit],
      );
      expect(top.converged).toBe(true);
      expect(top.iterations).toBe(1);
      expect(top.parameters[0]).toBeCloseTo(3 * unit, 12);
    }
  });

  it("climbs minus Rosenbrock's valley (1960) from (−1.2, 1) to (1, 1), where its Hessian is first indefinite", () => {
    const top = maximise(
      ([x, y]) => {
        const [a, b] = [x as number, y as number];
        const gap = b - a * a;
        return {
          value: -(100 * gap ** 2 + (1 - a) ** 2),
          gradient: Float64Array.of(400 * a * gap + 2 * (1 - a), -200 * gap),
          hessian: Float64Array.of(400 * (b - 3 * a * a) - 2, 400 * a, 400 * a, -200),
        };
      },
      [-1.2, 1],
    );
    expect(top.converged).toBe(true);
    expect(top.parameters[0]).toBeCloseTo(1, 9);
    expect(top.parameters[1]).toBeCloseTo(1, 9);
  });

  it('keeps inside its domain: log x − x from 1e-4 to 1', () => {
    const top = maximise(
      ([x]) => ({
        value: Math.log(x as number) - (x as number),
        gradient: Float64Array.of(1 / (x as number) - 1),
        hessian: Float64Array.of(-1 / (x as number) ** 2),
      }),
      [1e-4],
      { inside: ([x]) => (x as number) > 0 },
    );
    expect(top.parameters[0]).toBeCloseTo(1, 10);
  });

  it('does not call a climb without end converged', () => {
    // 1 − e^(−x) flattens out but has no top; a straight line has no curvature.
    const flat = maximise(
      ([x]) => {
        const left = Math.exp(-(x as number));
        return { value: 1 - left, gradient: Float64Array.of(left), hessian: Float64Array.of(-left) };
      },
      [0],
      { maxIterations: 20 },
    );
    expect(flat.converged).toBe(false);
    const line = maximise(
      ([x]) => ({ value: x as number, gradient: Float64Array.of(1), hessian: Float64Array.of(0) }),
      [0],
      { maxIterations: 20, longestStep: [1] },
    );
    expect(line.converged).toBe(false);
    expect(line.information).toBeNull();
    expect(line.parameters[0]).toBe(20);
  });

  it('a start where the function has no value is said, not followed', () => {
    const none = maximise(() => ({ value: NaN, gradient: Float64Array.of(NaN), hessian: Float64Array.of(NaN) }), [0]);
    expect(none.converged).toBe(false);
  });
});
