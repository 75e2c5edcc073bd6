package gen

import (
	"io"
	"strconv"
	"strings"
)

// plainHeader is the tool's own columns, in order, but for noise_bands, which the rivals of the benchmarks do not know.
const plainHeader = "part,maker,kind,width_mm,height_mm,depth_mm,hole_pitch_mm,voltage_v,voltage_min_v,voltage_max_v,supply,current_a,power_w," +
	"leads,connector,tach_per_rev,pwm,start_voltage_v,frequency_hz,airflow_m3h,static_pressure_pa,curve,speed_rpm,noise_dba,noise_kind," +
	"noise_distance_m,blades,bearing,life_h,life_temp_c,temp_max_c,price,currency,supplier,order_code,stock,description"

// flushAt is how many bytes are gathered before they are written.
const flushAt = 1 << 16

// WritePlain writes the fans as the tool's own CSV, without octaves: its column names, comma, point, UTF-8, line feeds, empty cells where unknown.
func WritePlain(w io.Writer, specs []Spec) error {
	buf := append(make([]byte, 0, flushAt+4096), plainHeader...)
	buf = append(buf, '\n')
	for i := range specs {
		buf = appendPlain(buf, &specs[i])
		if len(buf) >= flushAt {
			if _, err := w.Write(buf); err != nil {
				return err
			}
			buf = buf[:0]
		}
	}
	_, err := w.Write(buf)
	return err
}

func appendPlain(b []byte, s *Spec) []byte {
	b = texts(b, s.Part, s.Maker, s.Kind)
	b = numbers(b, s.WidthMM, s.HeightMM, s.DepthMM, s.HolePitchMM, s.VoltageV, s.VoltageMinV, s.VoltageMaxV)
	b = texts(b, s.Supply)
	b = numbers(b, s.CurrentA, s.PowerW, s.Leads)
	b = texts(b, s.Connector)
	b = numbers(b, s.TachPerRev)
	b = texts(b, s.PWM)
	b = numbers(b, s.StartVoltageV, s.FrequencyHz, s.AirflowM3h, s.StaticPressurePa)
	b = append(appendCurve(b, s.Curve), ',')
	b = numbers(b, s.SpeedRPM, s.NoiseDBA)
	b = texts(b, s.NoiseKind)
	b = numbers(b, s.NoiseDistanceM, s.Blades)
	b = texts(b, s.Bearing)
	b = numbers(b, s.LifeH, s.LifeTempC, s.TempMaxC, s.Price)
	b = texts(b, s.Currency, s.Supplier, s.OrderCode)
	b = numbers(b, s.Stock)
	b = texts(b, s.Description)
	b[len(b)-1] = '\n'
	return b
}

// texts appends cells, each followed by a comma.
func texts(b []byte, cells ...string) []byte {
	for _, cell := range cells {
		b = append(appendCell(b, cell, ','), ',')
	}
	return b
}

// numbers appends numbers in their shortest form, each followed by a comma.
func numbers(b []byte, cells ...Number) []byte {
	for _, n := range cells {
		if n.Known {
			b = strconv.AppendFloat(b, n.Value, 'f', -1, 64)
		}
		b = append(b, ',')
	}
	return b
}

// appendCurve appends "0:42;10:35;…", m³/h:Pa.
func appendCurve(b []byte, points []Point) []byte {
	for i, p := range points {
		if i > 0 {
			b = append(b, ';')
		}
		b = strconv.AppendFloat(b, p.FlowM3h, 'f', -1, 64)
		b = append(b, ':')
		b = strconv.AppendFloat(b, p.PressurePa, 'f', -1, 64)
	}
	return b
}

// appendCell appends a cell, in quotes where RFC 4180 asks for them.
func appendCell(b []byte, cell string, delimiter byte) []byte {
	if !strings.ContainsAny(cell, "\"\r\n") && strings.IndexByte(cell, delimiter) < 0 {
		return append(b, cell...)
	}
	b = append(b, '"')
	b = append(b, strings.ReplaceAll(cell, `"`, `""`)...)
	return append(b, '"')
}
