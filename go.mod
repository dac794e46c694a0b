module seamwright

go 1.26.0

require (
	fyne.io/fyne/v2 v2.8.1 // indirect
	github.com/go-gl/mathgl v1.2.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/sahilm/fuzzy v0.1.3 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	github.com/stretchr/testify v1.12.1 // indirect
	golang.org/x/image v0.47.0 // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
