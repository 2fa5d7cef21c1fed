package plan_test

import (
	"springrib/internal/plan"
	"springrib/internal/remedy"
)

func init() { plan.SetMend(func(p *plan.Plan) { remedy.Mend(p, p.Findings) }) }
