/** A rule for the interval from -1 to 1. */
interface QuadratureRule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * Nodes and weights of Gauss-Legendre quadrature: roots of the Legendre polynomial by Newton's method, weights
 * 2 / ((1 - x^2) P'(x)^2) (Abramowitz & Stegun 25.4.29).
 */
function gaussLegendreRule(order: number): QuadratureRule {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let root = 1; root <= order; root++) {
    let x = Math.cos((Math.PI * (root - 0.25)) / (order + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      let previous = 1;
      let current = x;
      for (let degree = 2; degree <= order; degree++) {
        const next = ((2 * degree - 1) * x * current - (degree - 1) * previous) / degree;
        previous = current;
        current = next;
      }
      slope = (order * (previous - x * current)) / (1 - x * x);
      x -= current / slope;
    }
    nodes.push(x);
    weights.push(2 / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}

const twentyPoint = gaussLegendreRule(20);

/**
 * Calls `visit(x, weight)` at the 20 points of each panel between neighbouring `breakpoints`, left to right.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 25.4.29, carried to any interval by
 * 25.4.30.
 */
export function visitPanels(
  breakpoints: readonly number[],
  visit: (x: number, weight: number) => void,
): void {
  for (let panel = 1; panel < breakpoints.length; panel++) {
    const centre = 0.5 * (breakpoints[panel]! + breakpoints[panel - 1]!);
    const half = 0.5 * (breakpoints[panel]! - breakpoints[panel - 1]!);
    for (let point = 0; point < 20; point++)
      visit(centre + half * twentyPoint.nodes[point]!, half * twentyPoint.weights[point]!);
  }
}
