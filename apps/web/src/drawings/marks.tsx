import { unreachable } from "@pollard/base";
import type { Sex } from "@pollard/records";
import { Drawn } from "./drawn.tsx";

/** Square male, circle female, diamond neither or not known; a wether is a barred square (pedigree habit, adapted). */
export function SexMark({ sex, label }: { readonly sex: Sex; readonly label?: string | undefined }) {
  switch (sex) {
    case "buck":
      return (
        <Drawn label={label}>
          <rect x={16} y={16} width={64} height={64} strokeWidth={8} />
        </Drawn>
      );
    case "wether":
      return (
        <Drawn label={label}>
          <rect x={16} y={16} width={64} height={64} strokeWidth={8} />
          <path d="M18 78 L78 18" strokeWidth={8} />
        </Drawn>
      );
    case "doe":
      return (
        <Drawn label={label}>
          <circle cx={48} cy={48} r={34} strokeWidth={8} />
        </Drawn>
      );
    case "intersex":
      return (
        <Drawn label={label}>
          <path d="M48 10 L86 48 L48 86 L10 48 Z M48 10 V86" strokeWidth={8} />
        </Drawn>
      );
    case "unsure":
      return (
        <Drawn label={label}>
          <path d="M48 10 L86 48 L48 86 L10 48 Z" strokeWidth={8} />
        </Drawn>
      );
    default:
      return unreachable(sex, "SexMark");
  }
}

export type Status = "now" | "soon" | "done" | "planned" | "unsure";

/** The shape of a status: octagon, triangle, ticked square, open square, broken ring. Always beside its word. */
export function StatusMark({ status }: { readonly status: Status }) {
  switch (status) {
    case "now":
      return (
        <Drawn>
          <path d="M32 8 H64 L88 32 V64 L64 88 H32 L8 64 V32 Z" fill="currentColor" />
          <path d="M48 28 V52 M48 67 v1" stroke="var(--mark-hole, var(--page))" strokeWidth={10} />
        </Drawn>
      );
    case "soon":
      return (
        <Drawn>
          <path d="M48 10 L90 84 H6 Z" strokeWidth={8} />
          <path d="M48 38 V58 M48 71 v1" strokeWidth={9} />
        </Drawn>
      );
    case "done":
      return (
        <Drawn>
          <rect x={10} y={10} width={76} height={76} strokeWidth={8} />
          <path d="M26 49 L42 65 L71 31" strokeWidth={14} />
        </Drawn>
      );
    case "planned":
      return (
        <Drawn>
          <rect x={12} y={12} width={72} height={72} strokeWidth={8} />
        </Drawn>
      );
    case "unsure":
      return (
        <Drawn>
          <circle cx={48} cy={48} r={38} strokeWidth={7} strokeDasharray="14 12" />
          <path d="M37 39 C37 26 59 26 59 39 C59 48 48 47 48 57 M48 70 v1" strokeWidth={9} />
        </Drawn>
      );
    default:
      return unreachable(status, "StatusMark");
  }
}
