/** Why a fit can't be given. */
export type FitRefusalCode =
  'no_failures' | 'shape_unbounded' | 'not_identified' | 'separation' | 'not_converged';

/** A fit that the data can't support; a prior on the parameter named in the message would anchor it. */
export class FitRefused extends Error {
  readonly code: FitRefusalCode;

  constructor(code: FitRefusalCode, message: string) {
    super(message);
    this.name = 'FitRefused';
    this.code = code;
  }
}
