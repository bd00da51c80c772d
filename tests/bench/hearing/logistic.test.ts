import { expect, it } from 'vitest';
import { fit } from './logistic';

it('finds the published weights of a textbook example: hours of study, and passing', () => {
  // Twenty students, hours studied and whether they passed: a textbook example whose published maximum-likelihood
  // estimate is constant -4.0777, hours 1.5046 (Wikipedia, "Logistic regression"; values from memory).
  const hours = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 4, 4.25, 4.5, 4.75, 5, 5.5];
  const passed = [0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 1, 1, 1, 1, 1];
  const [constant, slope] = fit(hours.map((hour) => [hour]), passed.map(Boolean), 1e-9);
  expect(constant).toBeCloseTo(-4.0777, 3);
  expect(slope).toBeCloseTo(1.5046, 3);
});
