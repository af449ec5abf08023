// Chebyshev points and the polynomial through values at them: for what varies too slowly to be worked out at every frequency.

/** Points of the first kind between two bounds, ascending. */
export function chebyshevPoints(low: number, high: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (Math.PI * (2 * (count - i) - 1)) / (2 * count);
    return (low + high) / 2 + ((high - low) / 2) * Math.cos(angle);
  });
}

/**
 * The matrix that takes values at Chebyshev points of the first kind to values of the polynomial through them elsewhere.
 *
 * @returns `[place * points.length + point]`
 * @source Berrut & Trefethen, SIAM Review 46 (2004) 501, barycentric interpolation, weights of Chebyshev points of the first kind
 */
export function interpolation(points: readonly number[], at: readonly number[]): Float64Array {
  const n = points.length;
  const matrix = new Float64Array(at.length * n);
  at.forEach((place, row) => {
    const terms = points.map((point, i) => {
      const angle = (Math.PI * (2 * (n - i) - 1)) / (2 * n);
      return ((i % 2 === 0 ? 1 : -1) * Math.sin(angle)) / (place - point);
    });
    const hit = points.indexOf(place);
    const total = terms.reduce((sum, term) => sum + term, 0);
    terms.forEach((term, i) => {
      matrix[row * n + i] = 0 <= hit ? (i === hit ? 1 : 0) : term / total;
    });
  });
  return matrix;
}
