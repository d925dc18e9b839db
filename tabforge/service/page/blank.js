// What lies on a blank sheet.

const BLANK = `// Write here: the sheet follows.
title   First try
scale   A2 dorian
tempo   90

riff "Question"
  rhythm   e e q e e q | e e e e h
  degrees  1 2 3 4 3 2 | 3 2 1 _5 1
  marks    . h . . p . | . . . .  .

run "Answer"
  layout   position 5
  path     up, down
  rhythm   e
`;

/** What was written on it last, as long as the window is open. */
export function keptDraft() {
  try {
    return sessionStorage.getItem("draft") ?? BLANK;
  } catch {
    return BLANK;
  }
}

export function keepDraft(text) {
  try {
    sessionStorage.setItem("draft", text);
  } catch {
    // then it is not remembered
  }
}
