package cli

// helpTemplate is the help of every command: what it does, how it is written,
// an example, the flags.
const helpTemplate = `{{with or .Long .Short}}{{. | trimTrailingWhitespaces}}

{{end}}usage: {{if .HasAvailableSubCommands}}{{.UseLine}}{{else}}{{.UseLine}}{{end}}
{{if .HasExample}}
examples:
{{.Example | trimTrailingWhitespaces}}
{{end}}{{if .HasAvailableSubCommands}}
commands:
{{range .Commands}}{{if .IsAvailableCommand}}  {{rpad .Name .NamePadding}} {{.Short}}
{{end}}{{end}}{{end}}{{if .HasAvailableLocalFlags}}
flags:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}{{if .HasAvailableInheritedFlags}}
flags of every command:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}`
