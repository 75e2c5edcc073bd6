package match

import "lowsone/catalog"

// Fields lists the columns that Rank, Explain and EstimateSystem read, so that
// a store need not load the others. A column that is not loaded counts as
// unknown.
func Fields() []catalog.FieldID {
	return []catalog.FieldID{
		catalog.FieldPart, catalog.FieldMaker, catalog.FieldKind,
		catalog.FieldWidth, catalog.FieldHeight, catalog.FieldDepth, catalog.FieldHolePitch,
		catalog.FieldVoltage, catalog.FieldVoltageMin, catalog.FieldVoltageMax, catalog.FieldSupply, catalog.FieldFrequency,
		catalog.FieldCurrent, catalog.FieldPower, catalog.FieldLeads, catalog.FieldConnector,
		catalog.FieldTachPerRev, catalog.FieldPWM, catalog.FieldStartVoltage,
		catalog.FieldAirflow, catalog.FieldStaticPressure, catalog.FieldCurve, catalog.FieldSpeed,
		catalog.FieldNoise, catalog.FieldNoiseKind, catalog.FieldNoiseDistance, catalog.FieldNoiseBands, catalog.FieldBlades, catalog.FieldTempMax,
		catalog.FieldPrice, catalog.FieldCurrency, catalog.FieldStock, catalog.FieldInStock,
	}
}
