// Dense complex linear systems, for the few dozen to hundred modes that walls couple.

/** A system factored once, solved for many right sides in place: interleaved [re, im]. */
export type ComplexSolve = (b: Float64Array) => void;

/**
 * LU with partial pivoting.
 *
 * @param a row-major n × n, interleaved [re, im]; overwritten
 * @source Golub & Van Loan, Matrix Computations, §3.4
 */
export function factorComplex(a: Float64Array, n: number): ComplexSolve {
  const pivots = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    let best = k;
    let most = -1;
    for (let i = k; i < n; i++) {
      const at = 2 * (i * n + k);
      const size = (a[at] as number) ** 2 + (a[at + 1] as number) ** 2;
      if (most < size) {
        most = size;
        best = i;
      }
    }
    pivots[k] = best;
    if (best !== k) swapRows(a, n, k, best);
    const at = 2 * (k * n + k);
    const pRe = (a[at] as number) / most;
    const pIm = -(a[at + 1] as number) / most;
    for (let i = k + 1; i < n; i++) {
      const left = 2 * (i * n + k);
      const re = a[left] as number;
      const im = a[left + 1] as number;
      if (re === 0 && im === 0) continue;
      const mRe = re * pRe - im * pIm;
      const mIm = re * pIm + im * pRe;
      a[left] = mRe;
      a[left + 1] = mIm;
      const rowI = 2 * i * n;
      const rowK = 2 * k * n;
      for (let j = 2 * (k + 1); j < 2 * n; j += 2) {
        const uRe = a[rowK + j] as number;
        const uIm = a[rowK + j + 1] as number;
        a[rowI + j] = (a[rowI + j] as number) - mRe * uRe + mIm * uIm;
        a[rowI + j + 1] = (a[rowI + j + 1] as number) - mRe * uIm - mIm * uRe;
      }
    }
  }
  return (b) => {
    for (let k = 0; k < n; k++) {
      const other = pivots[k] as number;
      if (other !== k) {
        for (const part of [0, 1]) {
          const kept = b[2 * k + part] as number;
          b[2 * k + part] = b[2 * other + part] as number;
          b[2 * other + part] = kept;
        }
      }
    }
    for (let i = 1; i < n; i++) eliminate(a, b, n, i, 0, i);
    for (let i = n - 1; 0 <= i; i--) {
      eliminate(a, b, n, i, i + 1, n);
      const at = 2 * (i * n + i);
      const dRe = a[at] as number;
      const dIm = a[at + 1] as number;
      const size = dRe * dRe + dIm * dIm;
      const re = b[2 * i] as number;
      const im = b[2 * i + 1] as number;
      b[2 * i] = (re * dRe + im * dIm) / size;
      b[2 * i + 1] = (im * dRe - re * dIm) / size;
    }
  };
}

function swapRows(a: Float64Array, n: number, one: number, other: number): void {
  const kept = a.slice(2 * one * n, 2 * (one + 1) * n);
  a.copyWithin(2 * one * n, 2 * other * n, 2 * (other + 1) * n);
  a.set(kept, 2 * other * n);
}

/** b_i −= Σ a_ij b_j, j = from … to − 1. */
function eliminate(
  a: Float64Array,
  b: Float64Array,
  n: number,
  i: number,
  from: number,
  to: number,
): void {
  let re = b[2 * i] as number;
  let im = b[2 * i + 1] as number;
  for (let j = from; j < to; j++) {
    const at = 2 * (i * n + j);
    const aRe = a[at] as number;
    const aIm = a[at + 1] as number;
    const xRe = b[2 * j] as number;
    const xIm = b[2 * j + 1] as number;
    re -= aRe * xRe - aIm * xIm;
    im -= aRe * xIm + aIm * xRe;
  }
  b[2 * i] = re;
  b[2 * i + 1] = im;
}
