/** Words of two kids side by side, and of two readers of one head. */
export const compareWords = {
  title: "Side by side",
  of: (one: string, other: string) => `${one} and ${other}`,
  choose: "Which two?",
  chooseHow: "Which of its litter mates?",
  alone: "This kid has no litter mate to stand beside.",
  notFound: "Not looked at yet",
  hidden: "Hidden for now",
  seen: (age: string, by: string) => `${age}, ${by}`,
  notRead: "Nobody has read this head yet.",
  advice: "What to do",
  belief: "For horns",
  open: "Its page",
  apartTitle: "Two readers, two findings",
  apart: "They found different things. Both count; neither is wrong to say so.",
  apartDo: "Look together, or once more tomorrow.",
  more: "More of this kid",
  link: "Beside its litter mate",
} as const;

/** Words for a second reader, who is to see nothing of the first before their own reading is stored. */
export const blindWords = {
  title: "Look for yourself first?",
  readBy: (names: string) => `${names} has read this head. What was found is hidden here.`,
  readByMany: (names: string) => `${names} have read this head. What was found is hidden here.`,
  why: "Two pairs of eyes tell more when neither knows the other's answer.",
  read: "Read it myself",
  show: "Show me the answer",
  underWay: "Your own reading of this head is not finished.",
  underWayWhy: "The answer comes when it is stored.",
  carryOn: "Carry on reading",
} as const;
