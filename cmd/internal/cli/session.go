package cli

import (
	"bufio"
	"context"
	"fmt"
	"path/filepath"

	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// session is one run of the program: what is around it and what the global
// flags say. Commands print through it alone.
type session struct {
	env   Env
	out   *bufio.Writer // standard output
	style view.Style    // of standard output

	catalog string
	format  view.Format
	quiet   bool
	verbose bool
}

// print writes a result to standard output, in the format asked for.
func (s *session) print(doc view.Document) error {
	return view.Write(s.out, doc, s.format, s.style)
}

// forPeople says whether the result is a table.
func (s *session) forPeople() bool { return s.format == view.FormatTable }

// say writes a message to standard error, unless --quiet.
func (s *session) say(format string, args ...any) {
	if s.quiet {
		return
	}
	// What stands on a terminal must keep its order.
	if err := s.out.Flush(); err != nil {
		return
	}
	s.tell(fmt.Sprintf(format, args...))
}

// detail is say for what only --verbose shows.
func (s *session) detail(format string, args ...any) {
	if s.verbose {
		s.say(format, args...)
	}
}

// catalogDir gives the folder of the catalogue: --catalog, else
// LOWSONE_CATALOG, else "lowsone" in the data folder.
func (s *session) catalogDir() (string, error) {
	dir := s.catalog
	if dir == "" {
		dir = s.env.Getenv("LOWSONE_CATALOG")
	}
	if dir == "" {
		if s.env.DataHome == "" {
			return "", usagef("name a folder with --catalog DIR", "there is no data folder for the catalogue")
		}
		dir = filepath.Join(s.env.DataHome, "lowsone")
	}
	return filepath.Abs(dir)
}

// openCatalog opens the catalogue for reading. The caller closes it.
func (s *session) openCatalog(ctx context.Context) (*store.Catalogue, error) {
	dir, err := s.catalogDir()
	if err != nil {
		return nil, err
	}
	s.detail("catalogue in %s", dir)
	return store.Open(ctx, dir)
}
