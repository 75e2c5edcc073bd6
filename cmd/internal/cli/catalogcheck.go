package cli

import (
	"cmp"
	"context"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

const catalogCheckLong = `Check reads every file of the catalogue and holds it against its checksums; then
the columns, the words and the table of parts against the records. What is
damaged is named with its file and what it means; then the exit code is 1.

It writes nothing and may run beside anything else.`

func newCatalogCheckCmd(s *session, run func(context.Context, *session) error) *cobra.Command {
	return &cobra.Command{
		Use:         "check",
		Short:       "read all of the catalogue and say what is damaged",
		Long:        catalogCheckLong,
		Example:     `  lowsone catalog check`,
		Annotations: noListForm(),
		Args:        exactly(0, "check takes flags only; another folder: --catalog DIR"),
		RunE:        func(cmd *cobra.Command, _ []string) error { return run(cmd.Context(), s) },
	}
}

func runCatalogCheck(ctx context.Context, s *session) error {
	dir, err := s.catalogDir()
	if err != nil {
		return err
	}
	report, stop := s.storeProgress("checking")
	found, err := store.Check(ctx, dir, report)
	stop()
	if err != nil {
		return err
	}
	if err := s.print(&view.CatalogCheck{Report: found}); err != nil || found.Whole() {
		return err
	}
	return failf(wayBack(found), "the catalogue is damaged")
}

// wayBack says how a damaged catalogue is made whole.
func wayBack(found *store.Report) string {
	switch {
	case found.Gone:
		return "lowsone catalog repair makes it as it was before the last import; then import again what was imported last"
	case len(found.Lost) > 0:
		return "lowsone catalog repair makes it whole but for what is lost; then " + strings.Join(importAgain(found.Sources, found.Lost), ", ")
	}
	return "lowsone catalog repair makes it whole"
}

// storeProgress is progress for the store.
func (s *session) storeProgress(what string) (report func(store.Progress), stop func()) {
	tell, stop := s.progress(what)
	if tell == nil {
		return nil, stop
	}
	return func(p store.Progress) { tell(p.Done, p.Total) }, stop
}

// importAgain gives the command line that brings back the rows of each source
// that lost some.
func importAgain(sources []store.SourceInfo, lost []store.Loss) []string {
	from := map[string]store.SourceInfo{}
	for _, s := range sources {
		from[s.Name] = s
	}
	var lines []string
	for _, l := range lost {
		s := from[l.Source]
		line, usual := "lowsone import "+quoted(cmp.Or(s.Path, "FILE")), filepath.Base(s.Path)
		if s.Sheet != "" {
			line += " --sheet " + quoted(s.Sheet)
			usual += "#" + s.Sheet
		}
		if l.Source != usual {
			line += " --source " + quoted(l.Source)
		}
		lines = append(lines, line)
	}
	return lines
}
