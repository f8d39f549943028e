import demoAddress from "../../../../fixtures/herds/demo.jsonl?url";

/** The invented herd's file, fetched only when somebody wants to look around; it is on the phone with the app. */
export async function demoText(): Promise<string> {
  const response = await fetch(demoAddress);
  if (!response.ok) throw new Error(`the invented herd: ${response.status}`);
  return response.text();
}
