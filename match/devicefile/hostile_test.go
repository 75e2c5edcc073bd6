package devicefile

import (
	"fmt"
	"strings"
	"testing"
	"unicode"
)

// Files that are none, or that would cost a YAML library its time or its stack,
// are refused with the place and the reason.
func TestHostileFiles(t *testing.T) {
	head := "device: x\npaths:\n"
	for _, c := range []struct {
		name, data, place, reason string
	}{
		{"too large", strings.Repeat("#\n", MostBytes/2+1), "0:0", "1048578 bytes, a device file has at most 1048576"},
		{"too many lines", strings.Repeat("\n", 20000), "10001:1", "20001 lines, a device file has at most 10000"},
		{"long line", "device: " + strings.Repeat("x", 2000), "1:1001", "a line of 2008 characters, at most 1000"},
		{"much structure", strings.Repeat("[,]\n", 9000) + strings.Repeat("[,,,,,,,,,,,,,,,]\n", 900), "0:0", "characters of structure"},
		{"many words", strings.Repeat("- [a,b,c]\n", 2800), "", "words and marks, a device file has at most 20000"},
		{"deep brackets", head + strings.Repeat("[", 500), "3:17", "nested deeper than 16"},
		{"deep brackets over lines", head + strings.Repeat("[\n", 5000), "19:1", "nested deeper than 16"},
		{"deep maps", head + strings.Repeat("{a: ", 200), "3:65", "nested deeper than 16"},
		{"deep dashes", head + strings.Repeat("- ", 400), "3:33", "nested deeper than 16"},
		{"deep indentation", steps(100), "18:", "nested deeper than 16"},
		{"many keys", manyKeys(6000), "", "the file has no key"},
		{"aliases that multiply", "a: &a [x,x]\nb: &b [*a,*a]\nc: &c [*b,*b]\n", "1:4", "an anchor, &, has no place"},
		{"tab", "device: x\nroom:\n\tnow: 24 °C\n", "3:1", "a tab indents this line"},
		{"tab behind blanks", "device: x\nroom:\n  \tnow: 24 °C\n", "3:3", "a tab indents this line"},
		{"not UTF-8", "device: \xfc\n", "1:9", "this character is not UTF-8"},
		{"UTF-16", "d\x00e\x00v\x00", "1:2", "control character U+0000"},
		{"bell", "device: a\ab\n", "1:10", "control character U+0007"},
		{"escape", "device: \"\x1b[31m\"\n", "1:10", "control character U+001B"},
		{"line separator", "device: a\u2028b\n", "1:10", "control character U+2028"},
		{"null byte", "device: x\n\x00", "2:1", "control character U+0000"},
		{"long text", "device: " + strings.Repeat("x", 300) + "\n", "1:9", "has 300 characters, at most 200"},
		{"number that is none", head + "- fan: {airflow_m3h: .nan}\n", "3:22", "not a number"},
		{"infinite number", head + "- fan: {airflow_m3h: .inf}\n", "3:22", "not a number"},
		{"huge number", head + "- fan: {airflow_m3h: 1e400}\n", "3:22", "not a number"},
		{"many bands", "room:\n  bands: {" + many(1500, "%d: 3, ", ",\n") + "}\n", "", "no band lies at"},
		{"text of many bands", "room: {bands: " + many(160, "%d:3;", "") + "}\n", "", "no band lies at"},
		{"bands within bands", head + "- measured: {bands: {125: {125: {125: 3}}}}\n", "3:27", "is keys with values, not a value"},
		{"level that is no number", "room: {bands: {125: .nan}}\n", "1:21", "is no level"},
		{"infinite level", "room: {bands: {125: -.inf}}\n", "1:21", "is no level"},
		{"level without end", "room: {bands: {125: 1e400}}\n", "1:21", "is no level"},
		{"frequency that is no number", "room: {bands: {.nan: 3}}\n", "1:16", "is no frequency"},
		{"frequency below nothing", "room: {bands: {-125: 3}}\n", "1:16", "no band lies at"},
		{"frequency of nothing", "room: {bands: {'': 3}}\n", "1:16", `"" is no frequency`},
		{"frequency without end", "room: {bands: {1e300: 3}}\n", "1:16", "no band lies at"},
		{"frequency of control characters", `room: {bands: {"\u001b[31m": 3}}` + "\n", "1:16", `"\x1b[31m" is no frequency`},
		{"level of control characters", `room: {bands: {125: "3\u001b[31m"}}` + "\n", "1:21", "control character"},
		{"table of control characters", `room: {bands_file: "\u001b[31m.csv"}` + "\n", "1:20", "control character"},
		{"table of a long name", "room: {bands_file: " + strings.Repeat("x/", 150) + "}\n", "1:20", "at most 200"},
		{"escaped control characters", `device: "a\u001bb"` + "\n", "1:9", "device holds a control character"},
		{"key of control characters", `"a\u001bb": 3` + "\n", "1:1", `no key "a\x1bb"`},
	} {
		found := problemsOf(t, c.data)
		if _, err := Parse("device.yaml", []byte(c.data), tables); err != nil && strings.ContainsFunc(err.Error(), func(r rune) bool { return r != '\n' && unicode.IsControl(r) }) {
			t.Errorf("%s: the message holds control characters: %q", c.name, err)
		}
		if len(found) == 0 {
			t.Errorf("%s: not refused", c.name)
			continue
		}
		var list []string
		hit := false
		for _, p := range found {
			line := fmt.Sprintf("%d:%d: %s", p.At.Line, p.At.Column, p.Reason)
			hit = hit || strings.HasPrefix(line, c.place) && strings.Contains(p.Reason, c.reason)
			list = append(list, line)
		}
		if !hit {
			t.Errorf("%s: problems %q, want one at %s with %q", c.name, list, c.place, c.reason)
		}
	}
}

func steps(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// many numbers a text n times, with what ends every tenth.
func many(n int, format, end string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i+2)
		if i%10 == 9 {
			b.WriteString(strings.TrimPrefix(end, ","))
		}
	}
	return b.String()
}

func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "k%d: 1\n", i)
	}
	return b.String()
}

// However much is wrong, at most so many problems are listed, and the rest is
// counted.
func TestManyProblems(t *testing.T) {
	_, err := Parse("device.yaml", []byte(manyKeys(500)), tables)
	e, ok := err.(*Error)
	const all = 500 + 2 // without device and paths
	if !ok || len(e.Problems) != mostProblems || e.More != all-mostProblems {
		t.Fatalf("Parse: %T of %d problems, want *Error of %d", err, len(e.Problems)+e.More, all)
	}
	if want := fmt.Sprintf("device.yaml: %d more problems", all-mostProblems); !strings.HasSuffix(err.Error(), want) {
		t.Errorf("the message ends %q, want %q", err.Error()[len(err.Error())-60:], want)
	}
}

// What is written in other ways than ours, and means the same, is read.
func TestOtherWriting(t *testing.T) {
	const plain = "device: rack\nroom:\n  now: 24 °C   # warm\n  worst: 30 °C\npaths:\n- fan: {airflow_m3h: 40, pwm: yes}\n  clean: yes\n"
	want := parsed(t, "plain", plain)
	for name, data := range map[string]string{
		"line ends of DOS":   strings.ReplaceAll(plain, "\n", "\r\n"),
		"line ends of old":   strings.ReplaceAll(plain, "\n", "\r"),
		"byte order mark":    "\ufeff" + plain,
		"document mark":      "---\n" + plain,
		"tab before comment": strings.ReplaceAll(plain, "   #", "\t#"),
		"quotes":             strings.NewReplacer("24 °C", `"24 °C"`, "30 °C", "'30 °C'", "rack", `"rack"`).Replace(plain),
		"other units":        strings.NewReplacer("24 °C", "24C", "30 °C", "86 °F").Replace(plain),
		"true":               strings.ReplaceAll(plain, "yes", "true"),
		"blanks":             plain + "  heat:\n    now:\n  spots:\n  - name:\n    found: unknown\nnoise:\nmeasured: []\n",
		"no last line end":   strings.TrimSuffix(plain, "\n"),
	} {
		got := parsed(t, name, data)
		if d := diff(want.Device, got.Device); d != "" {
			t.Errorf("%s: device (-plain +%s):\n%s", name, name, d)
		}
	}
}
