package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// forgetOptions are what catalog forget is asked for.
type forgetOptions struct {
	session *session
	source  string
	dry     bool
}

const catalogForgetLong = `Forget drops the fans of one source: a parts list as it was named at its import.
lowsone catalog lists them. Other sources stay as they are.`

func newCatalogForgetCmd(s *session, run func(context.Context, *forgetOptions) error) *cobra.Command {
	o := &forgetOptions{session: s}
	cmd := &cobra.Command{
		Use:   "forget SOURCE",
		Short: "drop the fans of one source",
		Long:  catalogForgetLong,
		Example: `  lowsone catalog forget branch.csv --dry-run
  lowsone catalog forget "winter list"`,
		Annotations: noListForm(),
		Args:        exactly(1, "name one source; lowsone catalog lists them"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.source = args[0]
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().BoolVar(&o.dry, "dry-run", false, "say what would be dropped, write nothing")
	return cmd
}

func runCatalogForget(ctx context.Context, o *forgetOptions) error {
	s := o.session
	dir, err := s.catalogDir()
	if err != nil {
		return err
	}
	report, stop := s.storeProgress("forgetting")
	done, err := intake.Forget(ctx, dir, o.source, intake.ForgetOptions{Time: s.env.Now(), DryRun: o.dry, Progress: report})
	stop()
	if err != nil {
		return asNoSource(err)
	}
	if err := s.print(&view.CatalogForget{Forgotten: done}); err != nil {
		return err
	}
	return nil
}

// asNoSource says which sources there are where the one named is not.
func asNoSource(err error) error {
	var none *store.NoSourceError
	if !errors.As(err, &none) {
		return err
	}
	return nothingf(sourcesHint(none), "%v", none)
}

// asUnknownSource is asNoSource for a flag.
func asUnknownSource(err error) error {
	var none *store.NoSourceError
	if !errors.As(err, &none) {
		return err
	}
	return usagef(sourcesHint(none), "--source: %v", none)
}

func sourcesHint(none *store.NoSourceError) string {
	const most = 20
	hint := "the catalogue holds no source"
	if n := len(none.Sources); n > 0 {
		hint = "sources: " + strings.Join(none.Sources[:min(n, most)], ", ")
		if n > most {
			hint += fmt.Sprintf(" and %d more, which lowsone catalog lists", n-most)
		}
		if near := catalog.Nearest(none.Name, none.Sources); near != "" {
			hint = near + " " + hint
		}
	}
	return hint
}
