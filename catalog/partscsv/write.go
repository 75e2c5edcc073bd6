package partscsv

import (
	"encoding/csv"
	"fmt"
	"io"

	"github.com/gocarina/gocsv"

	"lowsone/catalog"
)

// ownRow is a row of the tool's own CSV. All cells are texts: gocsv reads and
// writes numbers in ways that lose a blank cell.
type ownRow struct {
	Part           string `csv:"part"`
	Maker          string `csv:"maker"`
	Kind           string `csv:"kind"`
	Width          string `csv:"width_mm"`
	Height         string `csv:"height_mm"`
	Depth          string `csv:"depth_mm"`
	HolePitch      string `csv:"hole_pitch_mm"`
	Voltage        string `csv:"voltage_v"`
	VoltageMin     string `csv:"voltage_min_v"`
	VoltageMax     string `csv:"voltage_max_v"`
	Supply         string `csv:"supply"`
	Current        string `csv:"current_a"`
	Power          string `csv:"power_w"`
	Leads          string `csv:"leads"`
	Connector      string `csv:"connector"`
	TachPerRev     string `csv:"tach_per_rev"`
	PWM            string `csv:"pwm"`
	StartVoltage   string `csv:"start_voltage_v"`
	Frequency      string `csv:"frequency_hz"`
	Airflow        string `csv:"airflow_m3h"`
	StaticPressure string `csv:"static_pressure_pa"`
	Curve          string `csv:"curve"`
	Speed          string `csv:"speed_rpm"`
	Noise          string `csv:"noise_dba"`
	NoiseKind      string `csv:"noise_kind"`
	NoiseDistance  string `csv:"noise_distance_m"`
	NoiseBands     string `csv:"noise_bands"`
	Blades         string `csv:"blades"`
	Bearing        string `csv:"bearing"`
	Life           string `csv:"life_h"`
	LifeTemp       string `csv:"life_temp_c"`
	TempMax        string `csv:"temp_max_c"`
	Price          string `csv:"price"`
	Currency       string `csv:"currency"`
	Supplier       string `csv:"supplier"`
	OrderCode      string `csv:"order_code"`
	Stock          string `csv:"stock"`
	InStock        string `csv:"in_stock"`
	Description    string `csv:"description"`
}

// cells gives the row's cells in the order of catalog.Fields.
func (o *ownRow) cells() [catalog.NumFields]*string {
	return [catalog.NumFields]*string{
		&o.Part, &o.Maker, &o.Kind, &o.Width, &o.Height, &o.Depth, &o.HolePitch,
		&o.Voltage, &o.VoltageMin, &o.VoltageMax, &o.Supply, &o.Current, &o.Power, &o.Leads, &o.Connector,
		&o.TachPerRev, &o.PWM, &o.StartVoltage, &o.Frequency, &o.Airflow, &o.StaticPressure, &o.Curve,
		&o.Speed, &o.Noise, &o.NoiseKind, &o.NoiseDistance, &o.NoiseBands, &o.Blades, &o.Bearing, &o.Life, &o.LifeTemp,
		&o.TempMax, &o.Price, &o.Currency, &o.Supplier, &o.OrderCode, &o.Stock, &o.InStock, &o.Description,
	}
}

// Write writes fans as the tool's own CSV: comma, decimal point, UTF-8, one
// column for each field. Only what is stated is written; what the reading
// estimated is left empty, or stands as the word it was estimated from, and is
// estimated again when the file is read. Text that a spreadsheet would run is
// defused; reading undoes it.
func Write(w io.Writer, fans []*catalog.Fan) error {
	rows := make([]ownRow, len(fans))
	for i, f := range fans {
		own := ownCells(f)
		for id, cell := range rows[i].cells() {
			*cell = own[id]
		}
	}
	out := gocsv.NewSafeCSVWriter(csv.NewWriter(w))
	if err := gocsv.MarshalCSV(rows, out); err != nil {
		return fmt.Errorf("writing fans as CSV: %w", err)
	}
	out.Flush()
	return out.Error()
}
