package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/export/figure"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

// plantStand works out the example with its motor, or with another one.
func plantStand(t *testing.T, motor string, change ...string) *drive.Design {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "plant-stand.toml"))
	require.NoError(t, err)
	text := string(data)
	if motor != "" {
		from, to := strings.Index(text, "[motor]"), strings.Index(text, "[platform]")
		text = text[:from] + "[motor]\n" + motor + "\n" + text[to:]
	}
	text = strings.NewReplacer(change...).Replace(text)
	j, found := job.Read("plant-stand.toml", []byte(text))
	require.NotNil(t, j, "%v", found)
	return drive.Resolve(j)
}

// The diagrams keep to their paper, whatever motor and teeth have in hand.
func TestLoadKeepsToItsPaper(t *testing.T) {
	const dc = "kind = \"dc\"\nrated_voltage = 12\nno_load_speed = 30\n"
	const stepper = "kind = \"stepper\"\nsteps = 200\ncurve = [[0, 500], [20, 400], [60, 0]]"
	for _, d := range []*drive.Design{
		plantStand(t, ""),
		plantStand(t, dc+"stall_torque = 600\nsupply = [24, 12, 9, 6, 5, 4, 3, 2]"),
		plantStand(t, dc+"stall_torque = 40"),
		plantStand(t, dc+"stall_torque = 90000\ngearbox_limit = 80000"),
		plantStand(t, stepper),
		plantStand(t, "", `material = "tpu-95a"`, ""),
		plantStand(t, "", `material = "tpu-95a"`, `material = "pa-cf"`, "pull =", "pull_radius = 1\npull ="),
	} {
		require.True(t, HasLoad(d))
		f := Load(d)
		for _, item := range f.Items {
			if text, ok := item.(figure.Text); ok {
				onPaper(t, f, text)
			}
		}
	}
	assert.False(t, HasLoad(&drive.Design{}))
}

func onPaper(t *testing.T, f figure.Figure, text figure.Text) {
	t.Helper()
	wide, err := figure.TextWidth(text.Text, text.Size)
	require.NoError(t, err)
	left := text.At.X
	switch text.Along {
	case figure.Right:
		left -= wide
	case figure.Middle:
		left -= wide / 2
	}
	assert.GreaterOrEqual(t, left, 0.0, text.Text)
	assert.LessOrEqual(t, left+wide, f.Width, text.Text)
	assert.GreaterOrEqual(t, text.At.Y, 0.0, text.Text)
	assert.LessOrEqual(t, text.At.Y, f.Height, text.Text)
	assert.NotContains(t, text.Text, "NaN")
}
