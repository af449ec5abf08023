// A finding as the figures list it.

import { pathText } from '../../schema/model/path.ts';
import type { Remark } from '../remarks/remark.ts';

export function findingFigures(remark: Remark): unknown {
  const { code, severity, path, message, measured, limit, source, accepted } = remark;
  return { code, severity, path: pathText(path), message, measured, limit, source, accepted };
}
