// Package drive computes how a fan is slowed: what speed it has at another
// voltage, how slow it may be planned to run, what a regulator, resistor, diodes,
// converter or PWM input has to be like for it, and why some ways are refused.
//
// Speeds are shares of the speed at nominal voltage, voltages shares of nominal
// voltage where they are called so. The law of speed against voltage was
// measured on one 80 mm fan with three samples; other brushless DC fans follow
// it to about 5 % (common practice). Fans that regulate their own speed do not
// follow it at all. Arguments are plain SI values; those that are unknown are
// NaN. Everything here is a pure function; the laws and limits, which a ranking
// asks for every fan, do not allocate.
//
// # Plans
//
// A Plan gives what the fan gets over the whole range of its supply, the heat at
// its worst, and what is left for the fan while it starts at twice its rated
// current. The current of a fan on less voltage lies between two bounds, in
// proportion to the voltage and not falling at all: a resistor is reckoned for
// both, everything else for the second, which is the hotter. What cannot or must
// not be done is a Refusal with its reason, never a plan: AC fans, fans that
// regulate themselves, pulsed supplies, less than 60 % of nominal voltage without
// a known starting voltage, and the tricks of Refuse.
//
// # References
//
//   - [Diodes] instructables.com, Using Diodes for Fan Control: 0.75 V in a diode
//     at the current of a fan.
//   - [Dropout] circuit-electronic-models.blogspot.com, 2012-09: a common
//     adjustable linear regulator needs 1.75 V at 0.3 A and 2 V at 1 A, one of low
//     drop 0.2 and 0.5 V.
//   - [Leads] colours of leads as reported in forums and a catalogue, each in
//     testdata/sources/fit_leads.csv.
//   - [PWM] 4-Wire Pulse Width Modulation (PWM) Controlled Fans Specification,
//     sections 2.1 to 2.3; the least duty of 30 % from MEMORY.
//   - [SPCR] silentpcreview.com, article 689, page 4: speed and airflow of an
//     80×25 mm fan at 12, 9, 7 and 5 V.
//   - IEC 60063: the series E12.
package drive
