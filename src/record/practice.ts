/** What the name of a practice test begins with. Names of real tests are moments, so none begins so. */
const PREFIX = "practice-";

interface Named {
  readonly testId: string;
}

/** The name of a practice test. It never changes, so a practice test can't become a real one, nor the other way round. */
export const practiceId = (testId: string): string => `${PREFIX}${testId}`;

/** Whether a test is only practice: told by its name, in whatever case. */
export const isPractice = ({ testId }: Named): boolean => testId.toLowerCase().startsWith(PREFIX);

/** Why a practice test goes to no file; null for a real one. */
export const practiceRefusal = (test: Named): string | null =>
  isPractice(test) ? "a practice test is never recorded: set out a real one with n on the bench" : null;
