// Dense vectors in place: the few operations that eigenvectors are made of.

/** Four sums side by side: a single one would wait for each addition to end. */
export function dot(one: Float64Array, other: Float64Array): number {
  const whole = one.length - (one.length % 4);
  let [s0, s1, s2, s3] = [0, 0, 0, 0];
  for (let i = 0; i < whole; i += 4) {
    s0 += (one[i] as number) * (other[i] as number);
    s1 += (one[i + 1] as number) * (other[i + 1] as number);
    s2 += (one[i + 2] as number) * (other[i + 2] as number);
    s3 += (one[i + 3] as number) * (other[i + 3] as number);
  }
  for (let i = whole; i < one.length; i++) s0 += (one[i] as number) * (other[i] as number);
  return s0 + s1 + (s2 + s3);
}

export function scale(x: Float64Array, by: number): void {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) * by;
}

export function subtract(x: Float64Array, times: number, y: Float64Array): void {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) - times * (y[i] as number);
}
