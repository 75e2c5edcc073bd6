// Package gen makes an invented fan catalogue, the same one for the same seed: first the truth (a []Spec), then that truth written
// as a small distributor's untidy list ([WriteMessy]) or as the tool's own CSV ([WritePlain]).
//
// Every maker, part, series and supplier is invented. The numbers are not measured on any fan; they follow the formulas below, with the
// constants set so that a label looks like the labels of the trade (common practice: a 60×60×25 fan at 3000 rpm is sold as
// about 25 m³/h, 35 Pa and 25 dB(A), at 6000 rpm as about 50 m³/h, 130 Pa and 42 dB(A)).
//
// The package works in plain float64 in the units people print on labels (mm, V, A, W, m³/h, Pa, rpm, dB(A), h, °C). It
// is a source of text, not a kernel: nothing of it is used to compute a result, and it shares no code with what reads its files,
// so that a mistake on one side is not repeated on the other.
//
// # What a fan does
//
// Fan similarity gives flow and pressure of a family from its two coefficients ([1] section 1.4 and 1.5):
//
//	u  = π·D·N                     tip speed, m/s
//	Q₀ = φ·A·u                     flow in free air; A = π·D²/4, for crossflow wheels A = D·L
//	p₀ = ψ·½·ρ·u²                  pressure at no flow; ρ = 1.2 kg/m³
//
// so Q₀ ∝ N and p₀ ∝ N² within a family. φ and ψ grow with depth over frame and shrink a little with the frame (blade tip gaps do not
// scale): the laws [axialPhi], [axialPsi] and their like are fitted to the two labels above and to no fan in particular.
// A family draws its own φ and ψ within ±6 % and ±8 % of them, a single fan within another ±2 % and ±3 %.
//
// Sound follows the specific sound power, L = K + 10·log₁₀ Q₀ + 20·log₁₀ p₀ ([2]), which is 50·log₁₀ N within a family and 70·log₁₀ D
// between sizes. K is for the sound pressure level at 1 m, Q₀ in m³/h, p₀ in Pa. With L_WSM = 42 dB for axial fans [2] at the best point
// (0.6·Q₀, 0.37·p₀), 36 dB from m³/s to m³/h, 11 dB from power to level at 1 m and some 2 dB for the A-weighting one finds −18 for axial
// fans: the trade labels ask for −18.5. A motor and bearing floor of 12 dB(A) is added as energy.
//
// The octaves of a few families are the shape of axial fans by [2] with c₃ and steepness drawn per family, so that it moves with the speed,
// rough by up to 0.8 dB, with 0.5 to 2.5 dB for the blade tone in its octave, and as high as the A-weighted level asks.
//
// Power is max(p·Q)/η with the efficiency of the whole fan, motor included, η = 0.10·(u·D)^0.4 (u in m/s, D in m; common practice:
// 5 % for a 25 mm fan, 15 % for a fast 120 mm one), never under 5 %; shaded-pole AC motors get half of it, never under 3 %. Current is P/V, for AC
// P/(V·0.62). Life halves per 10 to 15 K (drawn per family; [3]).
//
// # What a label says
//
// Honest makers round. Others promise more flow and pressure and less noise than their fans have: see [maker]. Cells are missing as often as
// each maker's habit says. [Physics] keeps what the fan does, the other fields of [Spec] what its label says.
//
// # Same bytes everywhere
//
// Random numbers come from a seeded PCG, in an order that does not depend on any map. Floating-point results may differ in
// the last bit between processors; every computed value is rounded to a few digits before it is written, and for the seed of
// the demo a test proves that none lies within 1e-9 of a rounding border.
//
// # References
//
//	[1] Similarity laws of fans: any textbook on turbomachinery; worked examples in testdata/sources/air_affinity.csv.
//	[2] VDI 2081, sound power of fans, L_W = L_WSM + 10·log₁₀(V/(m³/s)) + 20·log₁₀(Δp/Pa), and its shape by octaves, −5 − 5·(log₁₀ St + c₃)²,
//	    c₃ = −0.6 for axial fans; constants as in github jmrplens/phonometry (MIT).
//	[3] Halving per 10 to 15 K: common practice; fan makers publish 1.5 per 10 K (17 K), capacitor makers 2 per 10 K.
//	[4] IEC 61672-1, A-weighting by formula; held against testdata/sources/sound_weighting_iec61672.csv.
//
//go:generate go run ./write ../catalogue.csv
package gen
