/**
 * Log likelihood of one row under a Weibull with log scale `logScale` and log shape, with its first and second derivatives
 * by those two. Writes into `out`: value, by scale, by shape, by scale twice, by both, by shape twice.
 * Times come as logarithms (−Infinity for time 0 and no delayed entry, Infinity for still running).
 * With u = shape (ln t − logScale) the cumulative hazard is H = e^u, so that each derivative is H times a polynomial in u.
 */
export function weibullRow(
  logLow: number,
  logHigh: number,
  logEntry: number,
  logScale: number,
  shape: number,
  out: Float64Array,
): void {
  let value = 0;
  let byScale = 0;
  let byShape = 0;
  let scaleScale = 0;
  let scaleShape = 0;
  let shapeShape = 0;
  if (logEntry > -Infinity) {
    const u = shape * (logEntry - logScale);
    const hazard = Math.exp(u);
    value += hazard;
    byScale -= shape * hazard;
    byShape += u * hazard;
    scaleScale += shape * shape * hazard;
    scaleShape -= shape * hazard * (1 + u);
    shapeShape += u * hazard * (1 + u);
  }
  let u = 0;
  let hazard = 0;
  if (logLow > -Infinity) {
    u = shape * (logLow - logScale);
    hazard = Math.exp(u);
    value -= hazard;
    byScale += shape * hazard;
    byShape -= u * hazard;
    scaleScale -= shape * shape * hazard;
    scaleShape += shape * hazard * (1 + u);
    shapeShape -= u * hazard * (1 + u);
    if (logHigh === logLow) {
      value += Math.log(shape) + u - logLow;
      byScale -= shape;
      byShape += 1 + u;
      scaleShape -= shape;
      shapeShape += u;
    }
  }
  if (logHigh > logLow && logHigh < Infinity) {
    const uHigh = shape * (logHigh - logScale);
    const hazardHigh = Math.exp(uHigh);
    const gap = hazardHigh - hazard;
    const chance = -Math.expm1(-gap);
    const pull = Math.exp(-gap) / chance;
    const gapScale = -shape * gap;
    const gapShape = uHigh * hazardHigh - u * hazard;
    const gapScaleShape = -shape * (gap + gapShape);
    const gapShapeShape = uHigh * hazardHigh * (1 + uHigh) - u * hazard * (1 + u);
    const bend = pull * (1 + pull);
    value += Math.log(chance);
    byScale += pull * gapScale;
    byShape += pull * gapShape;
    scaleScale += pull * shape * shape * gap - bend * gapScale * gapScale;
    scaleShape += pull * gapScaleShape - bend * gapScale * gapShape;
    shapeShape += pull * gapShapeShape - bend * gapShape * gapShape;
  }
  out[0] = value;
  out[1] = byScale;
  out[2] = byShape;
  out[3] = scaleScale;
  out[4] = scaleShape;
  out[5] = shapeShape;
}
