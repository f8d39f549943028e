import { BUD_FEELS, CROWNS, NO_FINDINGS, SKIN_HOLDS, WHORLS } from "@pollard/husbandry";
import { BudFeelDrawing, CrownDrawing, NoFindingDrawing, SkinDrawing, WhorlDrawing } from "./head-signs.tsx";

/** The drawing of any answer to any sign; nothing for a finding that a later version knows. */
export function SignDrawing(props: {
  readonly sign: "feel" | "skin" | "whorls" | "crown";
  readonly finding: string;
  readonly label?: string;
}) {
  const { sign, finding, label } = props;
  const none = NO_FINDINGS.find((each) => each === finding);
  if (none !== undefined) return <NoFindingDrawing finding={none} label={label} />;
  const feel = sign === "feel" ? BUD_FEELS.find((each) => each === finding) : undefined;
  if (feel !== undefined) return <BudFeelDrawing finding={feel} label={label} />;
  const skin = sign === "skin" ? SKIN_HOLDS.find((each) => each === finding) : undefined;
  if (skin !== undefined) return <SkinDrawing finding={skin} label={label} />;
  const whorls = sign === "whorls" ? WHORLS.find((each) => each === finding) : undefined;
  if (whorls !== undefined) return <WhorlDrawing finding={whorls} label={label} />;
  const crown = sign === "crown" ? CROWNS.find((each) => each === finding) : undefined;
  if (crown !== undefined) return <CrownDrawing finding={crown} label={label} />;
  return null;
}
