import { Matrix, solve } from 'ml-matrix';

const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

/**
 * Logistic regression by Newton's method with a weak ridge (McCullagh and Nelder, Generalized Linear Models, 1989, section 4.4).
 * @param features one row a case, without a constant
 * @returns the constant, then one weight a feature
 */
export function fit(features: readonly (readonly number[])[], truths: readonly boolean[], ridge = 1e-3): number[] {
  const cases = new Matrix(features.map((row) => [1, ...row]));
  const truth = Matrix.columnVector(truths.map(Number));
  const penalty = Matrix.eye(cases.columns).mul(ridge);
  let weights = Matrix.zeros(cases.columns, 1);
  for (let step = 0; step < 50; step += 1) {
    const chances = cases.mmul(weights).to1DArray().map(logistic);
    const slope = cases.transpose().mmul(Matrix.sub(truth, Matrix.columnVector(chances))).sub(penalty.mmul(weights));
    const spread = cases.clone().mulColumnVector(chances.map((p) => p * (1 - p)));
    const change = solve(Matrix.add(cases.transpose().mmul(spread), penalty), slope);
    weights = Matrix.add(weights, change);
    if (change.to1DArray().every((each) => Math.abs(each) < 1e-8)) break;
  }
  return weights.to1DArray();
}
