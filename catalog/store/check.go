package store

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
)

// Report is what a check found.
type Report struct {
	Dir        string
	Generation int // that answers, or would if it were whole; 0: there is none
	Rows       int
	Sources    []SourceInfo // by name
	Files      int          // read

	Gone   bool     // nothing is left of what the live generation held
	Damage []Damage // none: the catalogue is whole
	Unread []Loss   // rows that cannot be read as it stands, by source
	Lost   []Loss   // those of them of which no whole copy is left
	Left   []string // what killed imports left behind; the next import sweeps it
}

// Whole says whether nothing is damaged.
func (r *Report) Whole() bool { return len(r.Damage) == 0 }

// Damage is one thing that is wrong with a file.
type Damage struct {
	Path   string // of the file
	Reason string // what is wrong with it
	Means  string // what that means
}

// Check reads everything that stands in the catalogue folder dir and holds it
// against its checksums, and the columns, the words and the table of parts
// against the records. It writes nothing and may run beside readers and an
// import. Errors: *NoneError, *NewerError, *OlderError, the context's, those of
// reading; damage is no error.
func Check(ctx context.Context, dir string, progress func(Progress)) (*Report, error) {
	for try := 1; ; try++ {
		c := &checker{dir: dir, report: Report{Dir: dir}, progress: progress, bad: map[string]string{}}
		err := c.check(ctx)
		c.close()
		if err != errGone || try == openTries { // else an import swept what was being checked
			return &c.report, err
		}
	}
}

// checker is one check while it goes on.
type checker struct {
	dir      string
	report   Report
	progress func(Progress)
	open     *Catalogue        // the live generation, as far as it opens; nil: not at all
	bad      map[string]string // files of it that do not stand up to their checksums, with the reason
}

func (c *checker) check(ctx context.Context) error {
	for _, step := range []func(context.Context) error{c.pointer, c.live, c.others} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	return ctx.Err()
}

func (c *checker) found(path, reason, means string) {
	c.report.Damage = append(c.report.Damage, Damage{path, reason, means})
}

func (c *checker) close() {
	if c.open != nil {
		_ = c.open.Close()
	}
}

// pointer reads CURRENT and settles which generation is looked at.
func (c *checker) pointer(context.Context) error {
	n, damage, err := answering(c.dir)
	if err != nil {
		return err
	}
	path := filepath.Join(c.dir, currentFile)
	_, missing := os.Stat(path)
	switch {
	case missing != nil:
		c.found(path, "it is missing", "the newest generation that can be read answers")
	case damage != nil:
		c.found(path, damage.Reason, "nothing is answered, as it is not known which generation is the live one; repair takes the newest")
	}
	c.report.Generation = n
	return nil
}

// others looks at what else stands in the folder: the generations before, and
// what killed imports left.
func (c *checker) others(ctx context.Context) error {
	all, err := generations(c.dir)
	if err != nil {
		return err
	}
	for _, n := range all {
		switch {
		case n == c.report.Generation: // has been looked at
		case n > c.report.Generation, !finished(c.dir, n):
			c.report.Left = append(c.report.Left, generationName(n))
		default:
			if err := c.before(ctx, n); err != nil {
				return err
			}
		}
	}
	entries, err := os.ReadDir(c.dir)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), currentFile+temporaryMark) {
			c.report.Left = append(c.report.Left, e.Name())
		}
	}
	return err
}

// before checks a generation before the live one, by its files.
func (c *checker) before(ctx context.Context, n int) error {
	const means = "it is the catalogue before the last import, kept in reserve: nothing of today's is lost"
	folder := filepath.Join(c.dir, generationName(n))
	release, err := hold(folder)
	if errors.Is(err, errGone) {
		return nil // an import has swept it meanwhile
	}
	defer release()
	path := filepath.Join(folder, manifestFile)
	m, err := readManifest(path)
	var damage *DamagedError
	var older *OlderError
	switch {
	case errors.As(err, &older):
		return nil // this program takes nothing from it
	case errors.As(err, &damage):
		c.found(damage.Path, damage.Reason, means)
		return nil
	case err != nil:
		return err
	}
	return c.files(ctx, folder, m, func(path, reason string) { c.found(path, reason, means) })
}

// files holds the files of a generation against their checksums and passes those
// that do not stand up to them.
func (c *checker) files(ctx context.Context, folder string, m *manifest, bad func(path, reason string)) error {
	for _, f := range m.Files {
		if err := ctx.Err(); err != nil {
			return err
		}
		path := filepath.Join(folder, filepath.FromSlash(f.Name))
		if _, reason := m.misfit(folder, func(name string) bool { return name == f.Name }); reason != "" {
			bad(path, reason)
			continue
		}
		crc, err := fileCRC(path)
		switch {
		case err != nil:
			bad(path, "it cannot be read: "+err.Error())
		case crc != f.CRC:
			bad(path, "its content has changed")
		}
		c.report.Files++
	}
	path := filepath.Join(folder, manifestFile)
	if reason := misprinted(path, m); reason != "" {
		bad(path, reason)
	}
	c.report.Files++
	return nil
}

// misprinted says what about the bytes of a manifest is not as it was written,
// though it reads as it should.
func misprinted(path string, m *manifest) string {
	b, err := os.ReadFile(path)
	if err != nil {
		return err.Error()
	}
	if want, err := m.encode(); err != nil || string(want) != string(b) {
		return "its form has changed, though it reads as before"
	}
	return ""
}

// lose counts rows of a source as unread, and as lost where nothing can bring
// them back but another import.
func (c *checker) lose(source string, rows int, lost bool) {
	c.report.Unread = addLoss(c.report.Unread, source, rows)
	if lost {
		c.report.Lost = addLoss(c.report.Lost, source, rows)
	}
}

func addLoss(list []Loss, source string, rows int) []Loss {
	for i := range list {
		if list[i].Source == source {
			list[i].Rows += rows
			return list
		}
	}
	return append(list, Loss{source, rows})
}

// TotalRows adds up the rows of losses.
func TotalRows(list []Loss) (rows int) {
	for _, l := range list {
		rows += l.Rows
	}
	return rows
}
