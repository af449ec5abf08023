// Numbers on the command line: read, or refused with what is expected.

import { InvalidArgumentError } from 'commander';

export function whole(least: number, most: number): (value: string) => number {
  return (value) => {
    const number = Number(value);
    if (Number.isInteger(number) && least <= number && number <= most) return number;
    throw new InvalidArgumentError(`a whole number from ${least} to ${most} is expected`);
  };
}

export function between(least: number, most: number): (value: string) => number {
  return (value) => {
    const number = Number(value);
    if (value.trim() !== '' && least <= number && number <= most) return number;
    throw new InvalidArgumentError(`a number from ${least} to ${most} is expected`);
  };
}
