// What a change of the air's temperature does to the speed of sound.

/**
 * @param temperature_k as it is
 * @param by_k warmer by so much
 * @returns the ratio of the speeds, √(1 + ΔT/T)
 * @source ideal gas, c ∝ √T
 */
export function temperatureRatio(temperature_k: number, by_k: number): number {
  return Math.sqrt(1 + by_k / temperature_k);
}
