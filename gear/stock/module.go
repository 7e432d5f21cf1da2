package stock

// Module is one module of the standard series.
type Module struct {
	Value  float64 // mm
	Series int     // 1 preferred, 2 second choice
	Source string
}

const (
	iso54     = "ISO 54:1996, from memory"
	belowOne  = "JIS B 1701-2, from memory"
	iso54Last = "ISO 54:1996, from memory; to be avoided if possible"
)

// modules lists the series from 0.2 to 50 mm by rising value.
var modules = []Module{
	{0.2, 1, belowOne}, {0.25, 2, belowOne}, {0.3, 1, belowOne}, {0.35, 2, belowOne},
	{0.4, 1, belowOne}, {0.45, 2, belowOne}, {0.5, 1, belowOne}, {0.55, 2, belowOne},
	{0.6, 1, belowOne}, {0.7, 2, belowOne}, {0.75, 2, belowOne}, {0.8, 1, belowOne},
	{0.9, 2, belowOne},
	{1, 1, iso54}, {1.125, 2, iso54}, {1.25, 1, iso54}, {1.375, 2, iso54},
	{1.5, 1, iso54}, {1.75, 2, iso54}, {2, 1, iso54}, {2.25, 2, iso54},
	{2.5, 1, iso54}, {2.75, 2, iso54}, {3, 1, iso54}, {3.5, 2, iso54},
	{4, 1, iso54}, {4.5, 2, iso54}, {5, 1, iso54}, {5.5, 2, iso54},
	{6, 1, iso54}, {6.5, 2, iso54Last}, {7, 2, iso54}, {8, 1, iso54},
	{9, 2, iso54}, {10, 1, iso54}, {11, 2, iso54}, {12, 1, iso54},
	{14, 2, iso54}, {16, 1, iso54}, {18, 2, iso54}, {20, 1, iso54},
	{22, 2, iso54}, {25, 1, iso54}, {28, 2, iso54}, {32, 1, iso54},
	{36, 2, iso54}, {40, 1, iso54}, {45, 2, iso54}, {50, 1, iso54},
}

// Modules returns the series from 0.2 to 50 mm by rising value.
func Modules() []Module { return append([]Module(nil), modules...) }
