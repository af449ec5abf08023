// Smooth functions of frequency from a few of their values: Chebyshev points, and the weights that lead from there to a grid.

/** Chebyshev points of the first kind between two frequencies, ascending. */
export function chebyshevPoints_hz(
  low_hz: number,
  high_hz: number,
  count: number,
): readonly number[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (Math.PI * (2 * (count - i) - 1)) / (2 * count);
    return (low_hz + high_hz) / 2 + ((high_hz - low_hz) / 2) * Math.cos(angle);
  });
}

/**
 * Lagrange's weights: the value at `at[row]` is Σ weights[row * nodes + i] × value at node i.
 *
 * @param nodes_hz all different
 * @source Lagrange interpolation, product form; stable for a few Chebyshev points
 */
export function lagrangeWeights(
  nodes_hz: readonly number[],
  at_hz: readonly number[],
): Float64Array {
  const weights = new Float64Array(at_hz.length * nodes_hz.length);
  at_hz.forEach((f_hz, row) => {
    nodes_hz.forEach((node_hz, i) => {
      weights[row * nodes_hz.length + i] = nodes_hz.reduce(
        (product, other_hz, j) =>
          j === i ? product : (product * (f_hz - other_hz)) / (node_hz - other_hz),
        1,
      );
    });
  });
  return weights;
}
