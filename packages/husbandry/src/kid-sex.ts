/** What a kid is taken for by eye. `unsure` = looked and could not tell; `intersex` = signs of both. */
export const KID_SEXES = ["doe", "buck", "wether", "intersex", "unsure"] as const;
export type KidSex = (typeof KID_SEXES)[number];

/** The two kinds of kid for which the trade has separate experience of horn growth. */
export const GROWTH_SEXES = ["buck", "doe"] as const;
export type GrowthSex = (typeof GROWTH_SEXES)[number];

/**
 * How far a kid grows horns as bucklings do, from what it is taken for.
 *
 * A wether is a castrated buckling. For an intersex kid, and where nobody could tell, nothing is known of the pace of
 * its buds, so both tables count for half: common practice gives no figure, and half claims least.
 */
export const BUCK_SHARE: Readonly<Record<KidSex, number>> = { buck: 1, wether: 1, doe: 0, intersex: 0.5, unsure: 0.5 };
