package keymap

// The actions on the findings.
const (
	FindUp     ID = "find-up"
	FindDown   ID = "find-down"
	FindPageUp ID = "find-page-up"
	FindPageDn ID = "find-page-down"
	FindTake   ID = "find-take"
)

// findingsActions lists what can be done on the findings. The keys of the bench do
// nothing there: the strip that they would change is out of sight.
func findingsActions() []Action {
	return []Action{
		{FindUp, []string{"up"}, "finding", "go to the finding above and choose its strip", OnFindings, 1},
		{FindDown, []string{"down"}, "finding below", "go to the finding below and choose its strip", OnFindings, 0},
		{FindPageUp, []string{"pgup"}, "five above", "go five findings up", OnFindings, 0},
		{FindPageDn, []string{"pgdown"}, "five below", "go five findings down", OnFindings, 0},
		{FindTake, []string{"enter"}, "take remedy", "make the change that would help, as it stands beneath the finding", OnFindings, 2},
	}
}
