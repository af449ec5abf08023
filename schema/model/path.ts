// A path names one place in a file by its keys: ['speakers', 'left', 'at', 'x'].

/** Keys from the root down; places in a list are their position in decimal ('0', '1', …). */
export type Path = readonly string[];

/** The path as people read it: keys joined by dots. Not parsed back: keys such as `31.5 Hz` hold dots themselves. */
export function pathText(path: Path): string {
  return path.join('.');
}

/** Whether `path` is `start` itself or lies below it. */
export function isAtOrBelow(path: Path, start: Path): boolean {
  return start.length <= path.length && start.every((key, index) => path[index] === key);
}
