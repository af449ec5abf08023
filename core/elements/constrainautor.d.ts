// What we use of @kninnug/constrainautor, typed here: the package offers its TypeScript sources as types, and they do not
// pass our strict settings.

/** Changes a triangulation in place so that the given pairs of points are its edges. */
export default class Constrainautor {
  constructor(triangulation: object, edges?: readonly (readonly [number, number])[]);
}
