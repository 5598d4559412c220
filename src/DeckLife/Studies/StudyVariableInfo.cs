namespace DeckLife.Studies;

/// <summary>Name, unit and allowed range of a quantity of a study.</summary>
/// <param name="Variable">The quantity.</param>
/// <param name="Name">Name in study files and tables.</param>
/// <param name="Unit">Canonical unit.</param>
/// <param name="Least">Smallest value allowed.</param>
/// <param name="Largest">Largest value allowed.</param>
/// <param name="Meaning">What it is, in words.</param>
public sealed record StudyVariableInfo(
    StudyVariable Variable,
    string Name,
    string Unit,
    double Least,
    double Largest,
    string Meaning
)
{
    private static readonly StudyVariableInfo[] Table =
    [
        new(StudyVariable.Cover, "cover", "mm", 1, 1000, "cover to the bar"),
        new(
            StudyVariable.SurfaceChloride,
            "surfaceChloride",
            "kg/m3",
            0,
            1000,
            "chloride content at the surface"
        ),
        new(
            StudyVariable.DiffusionCoefficient,
            "diffusionCoefficient",
            "mm2/yr",
            1e-9,
            1e6,
            "diffusion coefficient of the concrete at its reference age"
        ),
        new(
            StudyVariable.InitialChloride,
            "initialChloride",
            "kg/m3",
            0,
            1000,
            "chloride content of the concrete before any salt"
        ),
        new(
            StudyVariable.ChlorideThreshold,
            "chlorideThreshold",
            "kg/m3",
            1e-9,
            1000,
            "chloride content at the bar at which corrosion starts"
        ),
        new(
            StudyVariable.AgeingExponent,
            "ageingExponent",
            "1",
            0,
            0.999,
            "exponent m of the ageing law"
        ),
        new(
            StudyVariable.ConvectionDepth,
            "convectionDepth",
            "mm",
            0,
            1000,
            "depth at which the diffusion law starts"
        ),
        new(
            StudyVariable.Temperature,
            "temperature",
            "degC",
            -60,
            90,
            "mean temperature of the concrete"
        ),
        new(
            StudyVariable.ActivationTemperature,
            "activationTemperature",
            "K",
            0,
            20000,
            "activation energy of diffusion divided by the gas constant"
        ),
        new(
            StudyVariable.RemovalDepth,
            "removalDepth",
            "mm",
            0,
            1000,
            "depth of old concrete taken off before the overlay"
        ),
        new(
            StudyVariable.OverlayThickness,
            "overlayThickness",
            "mm",
            1,
            1000,
            "thickness of the overlay"
        ),
        new(
            StudyVariable.OverlayDiffusionCoefficient,
            "overlayDiffusionCoefficient",
            "mm2/yr",
            1e-9,
            1e6,
            "diffusion coefficient of the overlay at its reference age"
        ),
        OfState(StudyVariable.CoverMean, "coverMean", "mm", 5, 500, "mean cover over the deck"),
        OfState(
            StudyVariable.CoverStandardDeviation,
            "coverStandardDeviation",
            "mm",
            0.01,
            200,
            "standard deviation of the cover over the deck"
        ),
        OfState(
            StudyVariable.SurfaceChlorideMedian,
            "surfaceChlorideMedian",
            "kg/m3",
            1e-06,
            1000,
            "median over the deck of the surface content"
        ),
        OfState(
            StudyVariable.SurfaceChlorideLogDeviation,
            "surfaceChlorideLogDeviation",
            "1",
            0,
            3,
            "standard deviation over the deck of the logarithm of the surface content"
        ),
        OfState(
            StudyVariable.DiffusionCoefficientMedian,
            "diffusionCoefficientMedian",
            "mm2/yr",
            1e-06,
            1000000.0,
            "median over the deck of the apparent diffusion coefficient at the survey"
        ),
        OfState(
            StudyVariable.DiffusionCoefficientLogDeviation,
            "diffusionCoefficientLogDeviation",
            "1",
            0,
            3,
            "standard deviation over the deck of the logarithm of the diffusion coefficient"
        ),
        OfState(
            StudyVariable.Correlation,
            "correlation",
            "1",
            -1,
            1,
            "correlation over the deck of the logarithms of surface content and diffusion coefficient"
        ),
        OfState(
            StudyVariable.Background,
            "background",
            "kg/m3",
            0,
            1000,
            "chloride content of the deck's concrete before any salt"
        ),
        OfState(
            StudyVariable.ThresholdMean,
            "thresholdMean",
            "kg/m3",
            1e-06,
            1000,
            "mean over the deck of the threshold of initiation"
        ),
        OfState(
            StudyVariable.PropagationFactor,
            "propagationFactor",
            "1",
            0.001,
            1000.0,
            "factor on the period from initiation to damage, or on the corrosion rate where the deck's model starts from one"
        ),
        OfDeck(
            StudyVariable.OverlayDiffusionFactor,
            "overlayDiffusionFactor",
            "1",
            0.001,
            1000.0,
            "factor on the diffusion coefficient of the strategy's overlay"
        ),
        OfDeck(
            StudyVariable.CorrosionRateUnderOverlay,
            "corrosionRateUnderOverlay",
            "1",
            0.001,
            10,
            "rate at which corrosion goes on under a new overlay, relative to before"
        ),
        OfState(
            StudyVariable.ModelDiscrepancy,
            "modelDiscrepancy",
            "1",
            -3,
            3,
            "shift of the normal score of every share: what the model's form gets wrong"
        ),
        OfDeck(
            StudyVariable.DiscountRate,
            "discountRate",
            "1",
            -0.5,
            1,
            "real discount rate a year, as a fraction"
        ),
        OfDeck(
            StudyVariable.PriceFactor,
            "priceFactor",
            "1",
            0,
            100,
            "factor on all prices but those of renewal and of what comes at the limit"
        ),
        OfDeck(
            StudyVariable.RenewalPriceFactor,
            "renewalPriceFactor",
            "1",
            0,
            100,
            "factor on the prices of renewal and of what comes at the limit"
        ),
        OfDeck(
            StudyVariable.SurveyedState,
            "surveyedState",
            "1",
            0,
            1,
            "place of the projection's draw among all that it uses, in the order of the damage that they predict half-way to the horizon with nothing done"
        ),
    ];

    /// <summary>Whether it is a quantity of a whole deck, not of a section.</summary>
    public bool IsOfDeck { get; private init; }

    /// <summary>Whether <see cref="StudyVariable.SurveyedState"/> draws it, together with all others of which that is so.</summary>
    public bool IsOfState { get; private init; }

    /// <summary>All quantities, in the order of <see cref="StudyVariable"/>.</summary>
    public static IReadOnlyList<StudyVariableInfo> All => Table;

    /// <summary>Those that a study gives a value or a distribution: all but <see cref="StudyVariable.SurveyedState"/>, which has its own.</summary>
    public static IReadOnlyList<StudyVariableInfo> Given { get; } =
    [.. Table.Where(v => v.Variable != StudyVariable.SurveyedState)];

    private static StudyVariableInfo OfDeck(
        StudyVariable variable,
        string name,
        string unit,
        double least,
        double largest,
        string meaning
    ) => new(variable, name, unit, least, largest, meaning) { IsOfDeck = true };

    private static StudyVariableInfo OfState(
        StudyVariable variable,
        string name,
        string unit,
        double least,
        double largest,
        string meaning
    ) => OfDeck(variable, name, unit, least, largest, meaning) with { IsOfState = true };

    /// <summary>What is known of a quantity.</summary>
    /// <param name="variable">The quantity.</param>
    public static StudyVariableInfo Of(StudyVariable variable) => Table[(int)variable];

    /// <summary>Finds a quantity by its name.</summary>
    /// <param name="name">The name, exact.</param>
    public static StudyVariableInfo? Find(string? name) => Array.Find(Table, v => v.Name == name);
}
