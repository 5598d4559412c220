namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>A skin slice was left out.</summary>
    public static DiagnosticEntry SkinSlice { get; } =
        new(
            "DL2001",
            Severity.Warning,
            "Skin slice left out",
            "Slice {0} holds {1:G4} kg/m3, the peak below it ({2}) {3:G4} kg/m3: higher by {4:F1} combined standard deviations, so the slice is left out; the fit with it stands beside.",
            "Wetting, drying and carbonation lower the content of the skin, and Fick's law does not hold there. A slice is left out only where the peak exceeds every slice above it by more than 2 combined standard deviations (given ones, else 8 % of the value) and lies no deeper than 1 in (25.4 mm). Both fits are reported. To decide by hand, use --skip-surface N, 0 included."
        );

    /// <summary>The peak is below the surface, but the skin rule does not apply.</summary>
    public static DiagnosticEntry PeakBelowSurface { get; } =
        new(
            "DL2002",
            Severity.Warning,
            "Peak below the surface, kept",
            "The largest content, {0:G4} kg/m3, is in slice {1}, centre {2:F1} mm; it exceeds the slices above by {3:F1} combined standard deviations at least. No slice was left out: look for a skin, a repair or an old overlay.",
            "A peak below the surface may be noise, a skin, a repair or an old overlay. Slices are left out by default only where the peak exceeds each slice above it by more than 2 combined standard deviations and lies no deeper than 1 in (25.4 mm). Look at the core; --skip-surface N leaves slices out by hand."
        );

    /// <summary>Slices were left out by hand.</summary>
    public static DiagnosticEntry SkippedByHand { get; } =
        new(
            "DL2003",
            Severity.Note,
            "Slices left out by hand",
            "{0} slice(s) at the surface were left out as asked.",
            "The skin rule was switched off by --skip-surface N; the report says so."
        );

    /// <summary>The deepest slice lies above its neighbour.</summary>
    public static DiagnosticEntry CarryDown { get; } =
        new(
            "DL2004",
            Severity.Warning,
            "Deepest slice above its neighbour",
            "The deepest slice (row {0}) holds {1:G4} kg/m3, the one above it {2:G4} kg/m3. It was kept; have it determined again.",
            "Powder carried down by the drill, salt that came from below, or a slip. The slice is kept, since leaving it out would be a guess; the leave-one-out figures show what it does to D. Ask the laboratory for a second determination."
        );

    /// <summary>The profile does not reach the background.</summary>
    public static DiagnosticEntry BackgroundNotReached { get; } =
        new(
            "DL2005",
            Severity.Warning,
            "Background not reached",
            "At the deepest slice (centre {0:F1} mm) the fitted content still lies {1:P0} of (Cs - C0) above the background, which is therefore extrapolated: take a deeper slice, or hold the background (--background).",
            "The background is well known only where slices reach below the salt. It is reported as not reached where the model's deepest slice still holds more than 10 % of (Cs - C0). Take a deeper slice, or hold the background from unexposed concrete of the deck (--background)."
        );

    /// <summary>The background lies at its bound.</summary>
    public static DiagnosticEntry BackgroundAtBound { get; } =
        new(
            "DL2006",
            Severity.Warning,
            "Background at its bound",
            "The fitted background is 0, the least there can be; it has an upper limit alone, at most {0}. A deeper slice would narrow it.",
            "Least squares would like a negative background, which does not exist, so it is held at 0 and has no standard error of its own; the standard errors of Cs and D are those with it held there, and the profile-likelihood limits let it move upwards. Its upper limit is the upper end of the set that the cut of two-sided 95 % limits leaves; of cores whose background is truly above 0, those fitted at the bound are the ones that came out low, so the lower cut of a one-sided 95 % limit would miss it too often among them."
        );

    /// <summary>The program held the background.</summary>
    public static DiagnosticEntry BackgroundHeldByProgram { get; } =
        new(
            "DL2007",
            Severity.Warning,
            "Background held by the program",
            "Only {0} slices were measured above detection, too few to estimate Cs, D and a background: the background was held at 0. Holding it at the largest detection limit, {1:G4} kg/m3, would give D = {2}. Better: give the background from unexposed concrete (--background).",
            "With three measured slices and further ones below detection the background is known to lie between 0 and the detection limit only. The fit holds it at 0 and reports what the other end would give. Better: give the background from unexposed concrete (--background)."
        );

    /// <summary>Estimates are strongly correlated.</summary>
    public static DiagnosticEntry HighCorrelation { get; } =
        new(
            "DL2008",
            Severity.Warning,
            "Strongly correlated estimates",
            "The estimates of {0} and {1} are correlated by {2:F3}, beyond 0.95: the data hardly tell them apart. Use both of this core together, never one with another core's.",
            "A correlation beyond 0.95 means that the slices determine a combination of the two, not each. Use both numbers of one core together (as the deck fit does); never join the Cs of one core with the D of another."
        );

    /// <summary>The surface content is implausible.</summary>
    public static DiagnosticEntry ImplausibleSurface { get; } =
        new(
            "DL2009",
            Severity.Warning,
            "Surface content beyond what pore solution holds",
            "Cs = {0:G4} kg/m3 is above {1:G4} kg/m3, about what saturated salt solution in the pores can hold: check the unit, and take Cs as a parameter of the curve only.",
            "Saturated sodium chloride solution holds about 190 g of chloride a litre; 15 % of the concrete's volume filled with it gives 28.5 kg/m3 (48 lb/yd3). A fitted Cs above that is an extrapolation to the surface from a steep profile, a slip in units, or solid salt on the surface. It is a parameter of the curve, not a content to be relied on."
        );

    /// <summary>One slice decides the answer.</summary>
    public static DiagnosticEntry InfluentialSlice { get; } =
        new(
            "DL2010",
            Severity.Warning,
            "One slice decides D",
            "One laboratory result changes D more than twofold: {0}. Have it determined again.",
            "Each slice is left out in turn. Real cores change D by a factor of 1.2 to 1.8 (quartiles); beyond 2, or where no fit exists without the slice, one laboratory result decides the answer: have it determined again."
        );

    /// <summary>Slices were fitted as points.</summary>
    public static DiagnosticEntry FittedAsPoints { get; } =
        new(
            "DL2011",
            Severity.Warning,
            "Fitted as points",
            "{0} of {1} slices were fitted as points at their centres{2}.",
            "A sample is a slice: fitting its content as that of its centre biases D upwards, by about w2/(24 D t) for slices w thick: for slices of 1 in 5 % where D t is 500 mm2, 25 % where it is 100 mm2. Give top and bottom of each slice where they are known; --as-points asks for point fitting."
        );

    /// <summary>Slices lie below the detection limit.</summary>
    public static DiagnosticEntry NonDetects { get; } =
        new(
            "DL2012",
            Severity.Note,
            "Slices below detection",
            "Below detection: {0} of {1} slices. They enter as 'less than', neither as 0 nor left out.",
            "A non-detect says that the content is below a limit; the likelihood uses exactly that."
        );

    /// <summary>A limit does not exist.</summary>
    public static DiagnosticEntry OneSidedLimit { get; } =
        new(
            "DL2013",
            Severity.Warning,
            "One-sided limit",
            "The {0} 95 % limit of {1} lies outside the search for D ({2:0.####} to {3:0.###} mm2/yr): the slices do not bound it.",
            "Every D up to the end of the search interval agrees with the slices within the cut. The other limit stands. More or deeper slices, or a known background, would bound it."
        );

    /// <summary>The core is on a crack.</summary>
    public static DiagnosticEntry CoreOnCrack { get; } =
        new(
            "DL2014",
            Severity.Warning,
            "Core on a crack",
            "The core was taken on a crack: its D describes the crack, and it is kept apart from the deck's other cores.",
            "Salt reaches depth along a crack by other ways than diffusion through concrete. The fit is a description, not a property of the concrete."
        );

    /// <summary>The residuals exceed the given standard deviations.</summary>
    public static DiagnosticEntry ErrorsExceedGiven { get; } =
        new(
            "DL2015",
            Severity.Warning,
            "Residuals exceed the given standard deviations",
            "The residuals are {0:F1} times the given standard deviations (chi-square {1:F2} on {2} degrees of freedom, 97.5 % point {3:F2}); the limits are widened by that factor.",
            "Given standard deviations describe the laboratory; the concrete varies between slices as well. Where the residuals exceed them the limits use the residuals."
        );

    /// <summary>Few degrees of freedom.</summary>
    public static DiagnosticEntry FewDegreesOfFreedom { get; } =
        new(
            "DL2016",
            Severity.Note,
            "Few degrees of freedom",
            "{0} slices for {1} parameters leave {2} degree(s) of freedom: the limits are wide because the scatter itself is hardly known.",
            "With one or two degrees of freedom the laboratory's scatter comes from one or two numbers. The deck fit, which knows the scatter from all cores, says more."
        );

    /// <summary>Weights relative to the content have a floor.</summary>
    public static DiagnosticEntry RelativeErrorFloor { get; } =
        new(
            "DL2017",
            Severity.Note,
            "Relative errors with a floor",
            "Errors in proportion to the fitted content, not below that of {0:G3} kg/m3.",
            "A coefficient of variation can't hold down to content 0, where a slice would then outweigh all others. Under 2 % of the largest content, or under the largest detection limit, the error stays constant."
        );

    /// <summary>A slip was given less weight.</summary>
    public static DiagnosticEntry SlipDownweighted { get; } =
        new(
            "DL2018",
            Severity.Warning,
            "Slice far from the curve",
            "The slice of row {0} lies {1:F1} times the usual scatter from the curve and counts for {2:P0} of a usual slice: ask the laboratory.",
            "Under Student's t with 4 degrees of freedom a slice far from the curve pulls less; nothing is deleted. Ask the laboratory."
        );

    /// <summary>Duplicate slices scatter otherwise than the curve.</summary>
    public static DiagnosticEntry LackOfFit { get; } =
        new(
            "DL2019",
            Severity.Warning,
            "The curve misses the replicates' means",
            "Lack of fit: F = {0:F1} on {1} and {2} degrees of freedom (95 % point {3:F1}): repeated determinations agree with each other better than with the curve. Look for a skin, a change of exposure, or a crack.",
            "Where the same slice was determined more than once, its scatter is the laboratory's alone. A curve that misses the means by more says that the model, not the laboratory, is at fault: a skin, a change of exposure, binding, a crack."
        );

    /// <summary>The objective has several minima.</summary>
    public static DiagnosticEntry SeveralMinima { get; } =
        new(
            "DL2020",
            Severity.Warning,
            "Another fit is nearly as good",
            "D = {0:G4} mm2/yr, a fit apart from the one reported, agrees with the slices within the 95 % cut as well, and the limits span both. A further slice would tell them apart.",
            "The sum of squares has more than one minimum in D. The limits span both."
        );

    /// <summary>No fit exists without a slice.</summary>
    public static DiagnosticEntry IndispensableSlice { get; } =
        new(
            "DL2021",
            Severity.Warning,
            "No D without one slice",
            "Without {0}, no D exists within the search interval: have that slice determined again, or take a further one beside it.",
            "Each slice is left out in turn. Where no fit is left without one of them, that one laboratory result makes the answer: have it determined again, or take a further slice beside it."
        );

    /// <summary>The limits depend on what the errors are taken to be.</summary>
    public static DiagnosticEntry WeightsMatter { get; } =
        new(
            "DL2022",
            Severity.Note,
            "Limits depend on the weights",
            "The kind of error was not stated, so the limits hold for errors from constant to in proportion to the content (here up to {0:G3} times one another). Were it known: Cs {1} with constant errors, {2} with errors in proportion to the content; D {3} and {4}. {5}",
            "Limits hold only where the errors are of the kind that they were computed for: limits for constant errors hold Cs in 67 to 84 % of simulated cores whose errors are 8 % of the content, those for proportional errors hold C0 in 75 to 87 % of cores with constant ones. One core's slices seldom tell which kind it is, so the limits given span the kinds that they leave likely. The laboratory's statement or repeated determinations narrow them: --weights constant, --weights relative, --weights given."
        );

    /// <summary>Bootstrap limits are those of constant errors.</summary>
    public static DiagnosticEntry BootstrapOfConstantErrors { get; } =
        new(
            "DL2023",
            Severity.Note,
            "Bootstrap of constant errors",
            "The bootstrap drew constant errors: its limits hold for those only. With errors in proportion to the content, by profile likelihood: Cs {0}, D {1}.",
            "A bootstrap draws the errors that it is told of. Where the laboratory's error grows with the content, ask for relative weights, or take the limits by profile likelihood, which span the kinds of error that the slices leave likely."
        );

    /// <summary>Too few slices.</summary>
    public static DiagnosticEntry TooFewSlices { get; } =
        new(
            "DL2051",
            Severity.Error,
            "Too few slices",
            "{0} slice(s) measured above detection can be used; {1} free parameters ({2}) need at least {3}. {4}",
            "A fit through as many points as parameters has no error to judge it by. Hold the background (--background) or take more slices."
        );

    /// <summary>All slices are below detection.</summary>
    public static DiagnosticEntry AllBelowDetection { get; } =
        new(
            "DL2052",
            Severity.Error,
            "All below detection",
            "All {0} slices are below their detection limit: there is nothing to fit. Take the content as below that limit.",
            "The core says that the content is below the detection limit everywhere; use that, not a fit."
        );

    /// <summary>Contents do not fall with depth.</summary>
    public static DiagnosticEntry ContentsDoNotFall { get; } =
        new(
            "DL2053",
            Severity.Error,
            "Contents do not fall with depth",
            "Kendall's tau of content against depth, the shallowest slice left out, is {0:F2}: contents do not fall with depth, and no D is given. Look for a crack, a patch, an old overlay, salt from below, or exchanged labels.",
            "Diffusion from the surface gives contents that fall. A profile that rises or is flat was cut by a crack, a repair, an overlay, salt from below, or was mislabelled; or the salt has not come yet. No D can be given."
        );

    /// <summary>No spread among the contents.</summary>
    public static DiagnosticEntry NoSpread { get; } =
        new(
            "DL2054",
            Severity.Error,
            "All contents are equal",
            "All contents are {0:G4} kg/m3: there is no profile. Check whether one value was copied down the column.",
            "Equal contents carry no information about diffusion. Check whether one value was copied down the column."
        );

    /// <summary>The optimum lies at the end of the search interval.</summary>
    public static DiagnosticEntry OptimumAtSearchEnd { get; } =
        new(
            "DL2055",
            Severity.Error,
            "D lies at the end of its search interval",
            "The best D lies at the {0} end of its search interval, {1:G3} to {2:G3} mm2/yr: {3} Take slices further down or up, or state another interval (--d-low, --d-high).",
            "The search runs from 2 sqrt(D t) = 0.2 times the shallowest slice's centre depth to 20 times the deepest's. At the lower end only the first slice holds salt, at the upper end the profile is a straight line; in both cases D and Cs can't be told apart. --d-low and --d-high state another interval."
        );

    /// <summary>A given standard deviation is missing.</summary>
    public static DiagnosticEntry GivenSdMissing { get; } =
        new(
            "DL2056",
            Severity.Error,
            "Standard deviation missing",
            "Weights from given standard deviations were asked for, but row(s) {0} have none (or 0). Give each slice one, or use --weights constant or relative.",
            "Every slice needs a standard deviation above 0 in the sd column, or replicates; or use --weights constant or relative."
        );

    /// <summary>No exposure.</summary>
    public static DiagnosticEntry NoExposure { get; } =
        new(
            "DL2057",
            Severity.Error,
            "No exposure age",
            "The exposure age is {0:G4} yr; it must be above 0. Give the time from the first salt to coring.",
            "Give the time from the first salt to coring."
        );

    /// <summary>The background given is above the contents.</summary>
    public static DiagnosticEntry BackgroundAboveContents { get; } =
        new(
            "DL2058",
            Severity.Error,
            "Held background above the contents",
            "The background was held at {0:G4} kg/m3, and no slice lies enough above it for a profile (best Cs = C0). Check the unit and the basis of the background.",
            "Check the unit and the basis of the background."
        );

    /// <summary>The search interval is empty.</summary>
    public static DiagnosticEntry SearchIntervalEmpty { get; } =
        new(
            "DL2059",
            Severity.Error,
            "Search interval of D empty",
            "The search interval of D would run from {0:G3} to {1:G3} mm2/yr: its lower end must be above 0 and below its upper end.",
            "--d-low and --d-high state the ends. Where only one is stated, the other follows from the depths and the exposure: 2 sqrt(D t) = 0.2 times the shallowest slice's centre depth below, 20 times the deepest's above. State both, or a less extreme one."
        );

    /// <summary>The two-layer fit assumes a deck without salt before the overlay.</summary>
    public static DiagnosticEntry OverlaidCleanDeck { get; } =
        new(
            "DL2030",
            Severity.Warning,
            "Two layers, no salt left under the overlay assumed",
            "Both layers are taken to have held only the background when the overlay was placed. If the deck was salted before, state its years before the overlay and take at least 6 slices.",
            "Salt left in the old deck spreads upwards and downwards after an overlay. It is fitted where the deck's years before the overlay are known and the core has a slice more than free parameters (6 slices, 5 with the background held); else a profile that peaks below the interface is not described."
        );

    /// <summary>Depths count from the old concrete: one layer.</summary>
    public static DiagnosticEntry OverlaidOneLayer { get; } =
        new(
            "DL2031",
            Severity.Warning,
            "Deck under an overlay fitted as one layer",
            "Depths count from the deck concrete, so each core is fitted as one layer from there, salted for all of its exposure; the overlay, {0:0.#} mm placed {1:0.#} yr before the surveys, is left out. D and Cs describe that layer as if it had lain open.",
            "Under an overlay the surface content of the old concrete is no constant: it falls when the overlay is placed and rises as salt comes through. One layer gives an apparent D over both times. Slices of the overlay, with depths counted from the present surface, let the two layers be told apart."
        );

    /// <summary>Salt from before the overlay is part of the fit.</summary>
    public static DiagnosticEntry OverlaidOldSalt { get; } =
        new(
            "DL2032",
            Severity.Note,
            "Salt from before the overlay fitted",
            "Salt of the {0:0.#} yr before the overlay, {1:0.#} mm of old concrete taken off, {2}; the deck's D is taken as the same before and after.",
            "The salt left under an overlay is taken as what diffusion from a constant surface content left in those years, less what was milled off; it then spreads into both layers. Repairs, milling deeper than stated, or an ageing D make it another."
        );

    /// <summary>A core from before the overlay.</summary>
    public static DiagnosticEntry OverlaidCoreOlder { get; } =
        new(
            "DL2063",
            Severity.Error,
            "Core from before the overlay",
            "The core's exposure of {0:0.##} yr ends no later than the placing of the overlay, {1:0.##} yr after the first salt. Fit it from a table of its own.",
            "A core taken before the overlay holds no overlay. Fit it from a table of its own, its depths counted from the deck concrete."
        );

    /// <summary>Too few slices for two layers.</summary>
    public static DiagnosticEntry OverlaidTooFewSlices { get; } =
        new(
            "DL2060",
            Severity.Error,
            "Too few slices for two layers",
            "{0} slice(s) in the overlay and {1} in the deck; {2} free parameters need at least {3} slices, two of them in each layer. Grind thinner slices, or hold the background (--background).",
            "Each layer's D needs slices of its own layer. Grind thinner slices, or hold the background."
        );

    /// <summary>Non-detects are not accepted in two layers.</summary>
    public static DiagnosticEntry OverlaidNonDetects { get; } =
        new(
            "DL2061",
            Severity.Error,
            "Non-detects in a two-layer fit",
            "{0} slice(s) are below detection; the two-layer fit takes measured contents only. Fit the overlay's and the deck's part of the core by themselves.",
            "They are never set to 0 or left out silently. Fit the overlay's and the deck's part of the core by themselves, where non-detects are taken as 'less than'."
        );

    /// <summary>The two coefficients can't be told apart.</summary>
    public static DiagnosticEntry OverlaidUndetermined { get; } =
        new(
            "DL2062",
            Severity.Error,
            "Two-layer fit undetermined",
            "No best fit inside the search interval of D, {0:G3} to {1:G3} mm2/yr, for both layers. Hold the background (--background), state another interval (--d-low, --d-high), or take more slices.",
            "The salt has not reached the deck, or the slices do not tell the two layers' D apart. Hold the background, state a narrower interval, or take more slices."
        );

    /// <summary>An option of the command can't be used.</summary>
    public static DiagnosticEntry FitOptionUnusable { get; } =
        new(
            "DL2090",
            Severity.Error,
            "Option can't be used",
            "{0} \"{1}\" can't be used: {2}.",
            "Quantities on the command line are a number with a decimal point and their unit in one argument, such as --age \"30 yr\" or --background \"0.1 kg/m3\". Nothing was computed."
        );
}
