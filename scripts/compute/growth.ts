/**
 * Stature for age: the published growth table the set-up heights stand on.
 *
 * Source: CDC growth charts 2000 (Kuczmarski et al., Vital and Health Statistics 11(246), 2002), the
 * table of stature for age, ages 2 to 20, by sex: the parameters L, M and S of each half month. Here
 * are the two rows on either side of each birthday from 3 to 18 years. A percentile with the normal
 * deviate z is M · (1 + L·S·z)^(1/L), or M · e^(S·z) where L is 0 (Cole's LMS method, as the table's
 * own notes give it). The table is of children in the United States and describes; it is no norm.
 */

export type Sex = "girl" | "boy";

export const GROWTH_SOURCE =
	"CDC growth charts 2000, stature for age (Vital and Health Statistics, series 11, number 246)";

/** The birthdays, in years, that the table covers. */
export const GROWTH_AGES = { from: 3, to: 18 } as const;

/** Age in months, L, M (the median, in cm), S. */
export type LmsRow = readonly [months: number, l: number, m: number, s: number];

/** CDC 2000, stature for age, girls. */
export const GIRLS: readonly LmsRow[] = [
	[35.5, 0.57955631, 93.63382278, 0.041971514],
	[36.5, 0.54198094, 94.21335709, 0.042017509],
	[47.5, 0.251158446, 100.4680516, 0.043157889],
	[48.5, 0.225705996, 101.033927, 0.043259907],
	[59.5, -0.037351181, 107.3706841, 0.044206218],
	[60.5, -0.057729947, 107.9566031, 0.044276588],
	[71.5, -0.212174408, 114.4226317, 0.044915672],
	[72.5, -0.219069129, 115.0054978, 0.044963636],
	[83.5, -0.216770161, 121.22102, 0.045422551],
	[84.5, -0.210210748, 121.7616844, 0.045460702],
	[95.5, -0.092584657, 127.3522056, 0.045917535],
	[96.5, -0.079283065, 127.8262759, 0.045968169],
	[107.5, 0.070636605, 132.7093845, 0.046778099],
	[108.5, 0.08414848, 133.1303527, 0.04688401],
	[119.5, 0.261885086, 137.7691339, 0.048519011],
	[120.5, 0.284748919, 138.2111552, 0.048704503],
	[131.5, 0.693062173, 143.6949981, 0.050460835],
	[132.5, 0.744289752, 144.2609497, 0.050524236],
	[143.5, 1.274006058, 150.8936469, 0.048944504],
	[144.5, 1.303044695, 151.4865636, 0.048599314],
	[155.5, 1.269304678, 156.9644258, 0.044215488],
	[156.5, 1.242968236, 157.3436995, 0.043859135],
	[167.5, 0.971837799, 160.299733, 0.041165437],
	[168.5, 0.95657215, 160.4776996, 0.041022401],
	[179.5, 0.894475371, 161.8173534, 0.040124562],
	[180.5, 0.895569834, 161.8979913, 0.040083845],
	[191.5, 0.93622842, 162.5287029, 0.039832629],
	[192.5, 0.941145943, 162.5689958, 0.039820663],
	[203.5, 0.994936555, 162.9013208, 0.039737004],
	[204.5, 0.999505539, 162.9238449, 0.039732048],
	[215.5, 1.044055774, 163.1171673, 0.039690313],
	[216.5, 1.047571238, 163.1307866, 0.039687311],
];

/** CDC 2000, stature for age, boys. */
export const BOYS: readonly LmsRow[] = [
	[35.5, -0.30385434, 94.64636981, 0.040654312],
	[36.5, -0.390918369, 95.27359106, 0.04053412],
	[47.5, 0.758158406, 101.9373058, 0.041251224],
	[48.5, 0.827636736, 102.5104735, 0.041344257],
	[59.5, 1.255121285, 108.6296457, 0.042488804],
	[60.5, 1.266367398, 109.1751441, 0.042593311],
	[71.5, 1.162796198, 115.1238315, 0.043598407],
	[72.5, 1.137442868, 115.6608862, 0.043673359],
	[83.5, 0.786246296, 121.5072136, 0.044349559],
	[84.5, 0.753244292, 122.0305342, 0.044403374],
	[95.5, 0.470590753, 127.6320362, 0.045055632],
	[96.5, 0.455267507, 128.1237104, 0.045127088],
	[107.5, 0.410583274, 133.2882291, 0.046110573],
	[108.5, 0.415687443, 133.7344759, 0.046217028],
	[119.5, 0.499652617, 138.4142703, 0.047491194],
	[120.5, 0.505564115, 138.8234114, 0.047610108],
	[131.5, 0.495696454, 143.3107241, 0.048837504],
	[132.5, 0.487939275, 143.7303663, 0.048937694],
	[143.5, 0.416777012, 148.7917006, 0.04987865],
	[144.5, 0.420919142, 149.3088178, 0.049947823],
	[155.5, 0.757379106, 155.7642086, 0.050350423],
	[156.5, 0.816239713, 156.4098858, 0.050333444],
	[167.5, 1.601219573, 163.535045, 0.049146553],
	[168.5, 1.670433444, 164.1418486, 0.04894519],
	[179.5, 2.185849904, 169.7405351, 0.046159004],
	[180.5, 2.205180153, 170.139255, 0.045889585],
	[191.5, 2.138524662, 173.4013896, 0.043277987],
	[192.5, 2.113023423, 173.6100518, 0.043085685],
	[203.5, 1.757787065, 175.2397926, 0.041507249],
	[204.5, 1.724738292, 175.340954, 0.041408129],
	[215.5, 1.420996665, 176.1347593, 0.040682834],
	[216.5, 1.399999187, 176.1850208, 0.04064364],
];

/** Normal deviates of the percentiles shown; the 95th is the 5th with the other sign. */
const Z = { 5: -1.6448536269514722, 50: 0, 95: 1.6448536269514722 } as const;
export type Percentile = keyof typeof Z;

/**
 * Stature in cm on a birthday: midway between the percentiles of the two half-month rows beside it.
 * Undefined for ages the table here does not cover (whole years from 3 to 18 are).
 */
export function statureAt(sex: Sex, years: number, percentile: Percentile): number | undefined {
	const rows = sex === "girl" ? GIRLS : BOYS;
	const months = years * 12;
	const before = rows.find(([m]) => m === months - 0.5);
	const after = rows.find(([m]) => m === months + 0.5);
	if (before === undefined || after === undefined) return undefined;
	return (percentileOf(before, percentile) + percentileOf(after, percentile)) / 2;
}

/** A percentile of one row, in cm. */
export function percentileOf([, l, m, s]: LmsRow, percentile: Percentile): number {
	const z = Z[percentile];
	return l === 0 ? m * Math.exp(s * z) : m * (1 + l * s * z) ** (1 / l);
}
