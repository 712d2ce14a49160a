package scoring

// environment is all that a rule can see. It is passed by value. Every leaf
// has a row of the same name in the table of facts; a test holds the two
// together.
type environment struct {
	// Times of the run.
	Ordered   Moment `expr:"ordered"`
	Start     Moment `expr:"start"`
	FirstDrug Moment `expr:"first_drug"`
	Ended     Moment `expr:"ended"`

	// Acts.
	First        func(act string) Moment                    `expr:"first"`
	Last         func(act string) Moment                    `expr:"last"`
	FirstSince   func(act string, from Moment) Moment       `expr:"first_since"`
	Count        func(act string) int                       `expr:"count"`
	Did          func(act string) bool                      `expr:"did"`
	FirstOn      func(act, role string) Moment              `expr:"first_on"`
	LastOn       func(act, role string) Moment              `expr:"last_on"`
	FirstOnSince func(act, role string, from Moment) Moment `expr:"first_on_since"`
	CountOn      func(act, role string) int                 `expr:"count_on"`
	DidOn        func(act, role string) bool                `expr:"did_on"`
	Before       func(a, b Moment) bool                     `expr:"before"`
	Earlier      func(a, b Moment) Moment                   `expr:"earlier"`
	Later        func(a, b Moment) Moment                   `expr:"later"`
	LongestGap   func(from, to Moment) Span                 `expr:"longest_gap_between_checks"`
	SecondCheck  func(what string) Moment                   `expr:"second_check"`
	MissedChecks func(what string) int                      `expr:"missed_second_checks"`
	GapNoBlood   func(from, to Moment) Span                 `expr:"longest_gap_without_blood_return"`
	BloodRunning int                                        `expr:"blood_return_while_running"`
	SharedLine   func(what string) int                      `expr:"shared_line"`

	// The leak.
	Visible        func(sign string) Moment    `expr:"visible"`
	Found          func(sign string) Moment    `expr:"found"`
	Named          func(verdict string) Moment `expr:"named"`
	Recognised     Moment                      `expr:"recognised"`
	WronglyNamed   bool                        `expr:"wrongly_named"`
	Judged         func(verdict string) Moment `expr:"judged"`
	LeakStopped    Moment                      `expr:"leak_stopped"`
	LeakRan        Span                        `expr:"leak_ran_after_recognised"`
	RaisedOnLeak   int                         `expr:"raised_while_leaking"`
	AntidoteGiven  Moment                      `expr:"antidote_given"`
	AntidoteMG     Mass                        `expr:"antidote_mg"`
	AntidoteVolume Volume                      `expr:"antidote_volume"`
	AntidoteDilute Volume                      `expr:"antidote_dilution"`
	AntidoteWanted Moment                      `expr:"antidote_wanted"`
	AntidoteFits   bool                        `expr:"antidote_accepted"`
	LeakGraded     bool                        `expr:"leak_graded"`

	// Lines.
	FirstLine      lineFacts `expr:"first_line"`
	MainLine       lineFacts `expr:"main_line"`
	PlacedLine     lineFacts `expr:"placed_line"`
	SecondLine     Moment    `expr:"second_line"`
	CentralReady   Moment    `expr:"central_ready"`
	CentralLine    Moment    `expr:"central_line"`
	Punctures      int       `expr:"punctures"`
	PulledInUse    int       `expr:"pulled_in_use"`
	TimeOnPoorLine Span      `expr:"time_on_poor_line"`
	TimePeripheral Span      `expr:"time_peripheral"`
	CentralWanted  Moment    `expr:"central_wanted"`
	OldestBag      Span      `expr:"oldest_bag"`

	// The drug and the pressure as shown.
	HighestDose          Dose                                    `expr:"highest_dose"`
	HighestDoseAnywhere  Dose                                    `expr:"highest_dose_anywhere"`
	HighestConcentration Concentration                           `expr:"highest_concentration"`
	Ran                  func(drug string) Moment                `expr:"ran"`
	WithinOrder          func(drug string) bool                  `expr:"within_order"`
	RaisedWithout        func(act string, within Span) int       `expr:"raised_without"`
	DrugFree             Span                                    `expr:"drug_free"`
	WithoutInfusion      Span                                    `expr:"time_without_infusion"`
	ChangeoverGap        Span                                    `expr:"gap_in_changeover"`
	LongestWithout       func(drug string, from, to Moment) Span `expr:"longest_without"`
	ShownUnder           func(limit Pressure) Span               `expr:"shown_under"`
	ShownOver            func(limit Pressure) Span               `expr:"shown_over"`
	LowestShown          Pressure                                `expr:"lowest_shown"`
	HighestShown         Pressure                                `expr:"highest_shown"`

	OrNever func(s Span) Words `expr:"or_never"`

	// Sums.
	Right    func(sum string) bool  `expr:"right"`
	Answered func(sum string) bool  `expr:"answered"`
	ErrorOf  func(sum string) Share `expr:"error_of"`

	AnswerTo func(sum string) Words `expr:"answer_to"`
	KeyOf    func(sum string) Words `expr:"key_of"`

	// Calls.
	Asked        func(request string) Moment               `expr:"asked"`
	Granted      func(request string) Moment               `expr:"granted"`
	Told         func(role, fact string) bool              `expr:"told"`
	GrantedSince func(request string, from Moment) Moment  `expr:"granted_since"`
	ToldSince    func(role, fact string, from Moment) bool `expr:"told_since"`
	HandoverGave func(fact string) bool                    `expr:"handover_gave"`
	Decided      func(plan string) Moment                  `expr:"decided"`
	AnsweredCall func(call string) bool                    `expr:"answered_call"`
	DeclinedCall func(call string) bool                    `expr:"declined_call"`
	LapsedCall   func(call string) bool                    `expr:"lapsed_call"`

	OrderMended Moment `expr:"order_mended"`

	Order  orderFacts  `expr:"order"`
	Policy policyFacts `expr:"policy"`

	// Amounts written out.
	Seconds     func(n float64) Span          `expr:"seconds"`
	Minutes     func(n float64) Span          `expr:"minutes"`
	Hours       func(n float64) Span          `expr:"hours"`
	Percent     func(n float64) Share         `expr:"percent"`
	McgPerMin   func(n float64) Dose          `expr:"mcg_per_min"`
	McgPerML    func(n float64) Concentration `expr:"mcg_per_mL"`
	UnitsPerMin func(n float64) Dose          `expr:"units_per_min"`
	UnitsPerML  func(n float64) Concentration `expr:"units_per_mL"`
	MmHg        func(n float64) Pressure      `expr:"mmHg"`
	Milligrams  func(n float64) Mass          `expr:"mg"`
	ML          func(n float64) Volume        `expr:"mL"`
	MM          func(n float64) Length        `expr:"mm"`
}

// textEnvironment is all that a text can show: what a rule can see, and what
// became of the body.
type textEnvironment struct {
	environment
	Outcome outcomeFacts `expr:"outcome"`
}

// lineFacts are of one peripheral line that carried the vasopressor.
type lineFacts struct {
	Known         bool   `expr:"known"`
	Vein          Words  `expr:"vein"`
	Site          Words  `expr:"site"`
	Gauge         int    `expr:"gauge"`
	Length        Length `expr:"length"`
	Share         Share  `expr:"share_in_vein"`
	Scanned       bool   `expr:"under_ultrasound"`
	SiteAllowed   bool   `expr:"site_allowed"`
	GaugeAllowed  bool   `expr:"gauge_allowed"`
	LongEnough    bool   `expr:"long_enough"`
	ShareEnough   bool   `expr:"share_enough"`
	VeinWidth     Length `expr:"vein_width"`
	WideEnough    bool   `expr:"vein_wide_enough"`
	CuffSameArm   bool   `expr:"cuff_on_same_arm"`
	Placed        Moment `expr:"placed"`
	PressorFrom   Moment `expr:"pressor_from"`
	TimeOfPressor Span   `expr:"time_of_pressor"`
}

// orderFacts are of the order as written.
type orderFacts struct {
	Drug   Words    `expr:"drug"`
	Text   Words    `expr:"text"`
	Start  Dose     `expr:"start_dose"`
	Most   Dose     `expr:"most_dose"`
	Target Pressure `expr:"target"`
	Ceil   Pressure `expr:"ceiling"`
}

// policyFacts are the limits of the policy that the run is marked under.
type policyFacts struct {
	Title             Words                  `expr:"title"`
	LongestRun        Span                   `expr:"longest_run"`
	DecideBy          Span                   `expr:"decide_by"`
	CheckEarly        Span                   `expr:"check_early"`
	EarlyFor          Span                   `expr:"early_for"`
	CheckLater        Span                   `expr:"check_later"`
	Sites             Words                  `expr:"sites"`
	Gauges            Words                  `expr:"gauges"`
	LeastLength       Length                 `expr:"least_mm"`
	LeastShare        Share                  `expr:"least_share"`
	MostConcentration Concentration          `expr:"most_concentration"`
	MostDose          Dose                   `expr:"most_dose"`
	SecondChecks      Words                  `expr:"second_checks"`
	WantsSecondCheck  func(what string) bool `expr:"wants_second_check"`
	BackupBy          Span                   `expr:"backup_by"`
	StartBy           Span                   `expr:"start_by"`
	LeastAntidoteMG   Mass                   `expr:"least_antidote_mg"`
	MostAntidoteMG    Mass                   `expr:"most_antidote_mg"`
	LeastAntidoteML   Volume                 `expr:"least_antidote_ml"`
	MostAntidoteML    Volume                 `expr:"most_antidote_ml"`
	AntidoteBy        Span                   `expr:"antidote_by"`
	RateStep          float64                `expr:"rate_step_mlh"`
	Tolerance         Share                  `expr:"tolerance"`
	WithdrawFirst     bool                   `expr:"withdraw_first"`
	LeastVein         Length                 `expr:"least_vein_mm"`
	DosingWeight      Words                  `expr:"dosing_weight"`
	MayShare          func(what string) bool `expr:"may_share"`
	WantsBloodReturn  bool                   `expr:"wants_blood_return"`
	AllowsBloodReturn bool                   `expr:"allows_blood_return"`
	ChangeBagAfter    Span                   `expr:"change_bag_after"`
	AntidoteFor       Words                  `expr:"antidote_for"`
	OtherAntidotes    Words                  `expr:"other_antidotes"`
	Scale             Words                  `expr:"scale"`
	WantsScale        bool                   `expr:"wants_scale"`
	CentralDose       Dose                   `expr:"central_dose"`
	CallForCentral    Words                  `expr:"call_for_central"`
}

// outcomeFacts are what became of the body. Texts show them; no mark can
// rest on them.
type outcomeFacts struct {
	Under        Span   `expr:"time_under"`
	Over         Span   `expr:"time_over"`
	Set          Mass   `expr:"dose_set"`
	Reached      Mass   `expr:"dose_reached"`
	TissueDrug   Mass   `expr:"drug_in_tissue"`
	TissueVolume Volume `expr:"fluid_in_tissue"`
	Ischaemic    Span   `expr:"ischaemic_time"`
	Widest       Length `expr:"widest_swelling"`
	Flushed      Mass   `expr:"drug_flushed"`
	PeakDose     Dose   `expr:"peak_dose"`
}

// Words is a name or a list of names that a text can show. Nothing can be
// done with it in a rule.
type Words struct{ s string }

func (w Words) String() string { return w.s }
