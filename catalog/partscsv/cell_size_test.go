package partscsv

import (
	"testing"

	"lowsone/catalog/tabular"
)

// TestMetricLengths: of two units that agree the millimetres are kept.
func TestMetricLengths(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Depth", `0.984" (25.00mm)`, "depth_mm=25", ""},
		{"Depth", `25 mm (0.984")`, "depth_mm=25", ""},
		{"Depth", `1" (25 mm)`, "depth_mm=25", ""},
		{"Depth", `0.9" (25 mm)`, "depth_mm=25", "differ by 9 %"},
		{"Depth", `0.984"`, "depth_mm=24.99", ""},
	})
}

func TestSizeCells(t *testing.T) {
	testCells(t, tabular.Point, []cellRow{
		{"Size (mm)", "60x60x25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", "60 × 60 × 25 mm", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "60X60X25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "60*60*25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", "60 mm x 60 mm x 25 mm", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "□60×25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "Ø172x51", "width_mm=172 height_mm=172 depth_mm=51", ""},
		{"Size (mm)", "119 sq x 38", "width_mm=119 height_mm=119 depth_mm=38", ""},
		{"Size (mm)", "dia. 172 x 51", "width_mm=172 height_mm=172 depth_mm=51", ""},
		{"Size (mm)", "60x25", "width_mm=60 height_mm=60 depth_mm=25", "square frame and its depth"},
		{"Size (mm)", "60x60", "width_mm=60 height_mm=60", ""},
		{"Size (mm)", "92x88", "width_mm=92 height_mm=88", "width and height"},
		{"W x H (mm)", "60x25", "width_mm=60 height_mm=25", ""},
		{"W x D (mm)", "60x25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "25x60x60", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "200x60x60", "width_mm=200 height_mm=60 depth_mm=60", ""},
		{"H x B x T (mm)", "120x97x33", "width_mm=120 height_mm=97 depth_mm=33", ""},
		{"Size (mm)", "60", "width_mm=60 height_mm=60", ""},
		{"Frame (mm)", "6025", "width_mm=60 height_mm=60 depth_mm=25", "frame code"},
		{"Frame (mm)", "12038", "width_mm=120 height_mm=120 depth_mm=38", "frame code"},
		{"Size", "60W x 60H x 25D mm", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "B60 x H60 x T25", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "60 (W) x 60 (H) x 25 (D)", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", `2.36" x 2.36" x 0.98"`, "width_mm=59.94 height_mm=59.94 depth_mm=24.89", ""},
		{"Size", `2 3/8" x 2 3/8" x 1"`, "width_mm=60.33 height_mm=60.33 depth_mm=25.4", ""},
		{"Size", `2-3/8 x 2-3/8 x 1 in`, "width_mm=60.33 height_mm=60.33 depth_mm=25.4", ""},
		{"Size", "2⅜″ × 2⅜″ × 1″", "width_mm=60.33 height_mm=60.33 depth_mm=25.4", ""},
		{"Size (inch)", "2 3/8 x 2 3/8 x 1", "width_mm=60.33 height_mm=60.33 depth_mm=25.4", ""},
		{"Size", "60x60x25 mm (2.36 x 2.36 x 0.98 in)", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", "6 x 6 x 2.5 cm", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", `Square - 2.36" (60mm) x 2.36" (60mm)`, "width_mm=60 height_mm=60", ""},
		{"Size", `2.36" (60mm) x 2.36" (60mm) x 0.98" (25mm)`, "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size", `2.36"(60mm)L x 2.36"(60mm)W`, "width_mm=60 height_mm=60", ""},
		{"Size", `60 mm (2.36") x 25 mm (0.98")`, "width_mm=60 height_mm=60 depth_mm=25", "square frame and its depth"},
		{"Size", `2.36 in/60 mm x 2.36 in/60 mm`, "width_mm=60 height_mm=60", ""},
		{"Size", `2.36" (60mm) x 2.36" (92mm)`, "reject: contradicts itself: 92 mm and 59.94 mm", ""},
		{"Size", `Round - 6.77" Dia (172mm)`, "width_mm=172 height_mm=172", ""},
		{"Size", `2.36" (60mm)`, "width_mm=60 height_mm=60", ""},
		{"Size", "Square - 60 x 60 mm", "width_mm=60 height_mm=60", ""},
		{"Size", "quadratisch – 60 × 60 × 25 mm", "width_mm=60 height_mm=60 depth_mm=25", ""},
		{"Size (mm)", "60x-60", "reject: -60 mm is outside the possible 2 to 1000", ""},
		{"Size (mm)", "60x", "reject: a product without its last side", ""},
		{"Size (mm)", "60 × 60 ×", "reject: a product without its last side", ""},
		{"Size (mm)", "60x6Ox25", `reject: "Ox" is not understood`, ""},
		{"Size (mm)", "60-80", "reject: a range where one number belongs", ""},
		{"Size (mm)", "0x0x0", "reject: 0 mm is outside the possible 5 to 2000", ""},
		{"Size (mm)", "60x60x25x10", "reject: 4 sides", ""},
		{"Depth (mm)", "25", "depth_mm=25", ""},
		{"Depth", `1"`, "depth_mm=25.4", ""},
		{"Depth", `1 1/2"`, "depth_mm=38.1", ""},
		{"Depth (mm)", "25-26", "depth_mm=26", "high end"},
		{"Hole pitch (mm)", "50", "hole_pitch_mm=50", ""},
		{"Hole pitch (mm)", "50 x 50", "hole_pitch_mm=50", ""},
		{"Hole pitch (mm)", "105 x 82.5", "", "taken as unknown"},
	})
}
