import type { AnimalRef } from "@pollard/advice";
import { words } from "../../house/wording.ts";

/** Goats by name, else by tag, as a reader of the phone's language looks them up; the nameless last, by whose kid they are. */
export const byName = (one: AnimalRef, other: AnimalRef): number =>
  Number(isNameless(one)) - Number(isNameless(other)) || words.inOrder(calledBy(one), calledBy(other));

const isNameless = ({ name, tag }: AnimalRef): boolean => name === undefined && tag === undefined;
const calledBy = ({ name, tag, damName }: AnimalRef): string => name ?? tag ?? damName ?? "";
