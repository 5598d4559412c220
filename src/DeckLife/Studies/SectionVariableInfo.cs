namespace DeckLife.Studies;

/// <summary>Name, unit and allowed range of a section's quantity.</summary>
/// <param name="Variable">The quantity.</param>
/// <param name="Name">Name in study files and tables.</param>
/// <param name="Unit">Canonical unit.</param>
/// <param name="Least">Smallest value allowed.</param>
/// <param name="Largest">Largest value allowed.</param>
/// <param name="Meaning">What it is, in words.</param>
public sealed record SectionVariableInfo(
    SectionVariable Variable,
    string Name,
    string Unit,
    double Least,
    double Largest,
    string Meaning
)
{
    private static readonly SectionVariableInfo[] Table =
    [
        new(SectionVariable.Cover, "cover", "mm", 1, 1000, "cover to the bar"),
        new(
            SectionVariable.SurfaceChloride,
            "surfaceChloride",
            "kg/m3",
            0,
            1000,
            "chloride content at the surface"
        ),
        new(
            SectionVariable.DiffusionCoefficient,
            "diffusionCoefficient",
            "mm2/yr",
            1e-9,
            1e6,
            "diffusion coefficient of the concrete at its reference age"
        ),
        new(
            SectionVariable.InitialChloride,
            "initialChloride",
            "kg/m3",
            0,
            1000,
            "chloride content of the concrete before any salt"
        ),
        new(
            SectionVariable.ChlorideThreshold,
            "chlorideThreshold",
            "kg/m3",
            1e-9,
            1000,
            "chloride content at the bar at which corrosion starts"
        ),
        new(
            SectionVariable.AgeingExponent,
            "ageingExponent",
            "1",
            0,
            0.999,
            "exponent m of the ageing law"
        ),
        new(
            SectionVariable.ConvectionDepth,
            "convectionDepth",
            "mm",
            0,
            1000,
            "depth at which the diffusion law starts"
        ),
        new(
            SectionVariable.Temperature,
            "temperature",
            "degC",
            -60,
            90,
            "mean temperature of the concrete"
        ),
        new(
            SectionVariable.ActivationTemperature,
            "activationTemperature",
            "K",
            0,
            20000,
            "activation energy of diffusion divided by the gas constant"
        ),
        new(
            SectionVariable.RemovalDepth,
            "removalDepth",
            "mm",
            0,
            1000,
            "depth of old concrete taken off before the overlay"
        ),
        new(
            SectionVariable.OverlayThickness,
            "overlayThickness",
            "mm",
            1,
            1000,
            "thickness of the overlay"
        ),
        new(
            SectionVariable.OverlayDiffusionCoefficient,
            "overlayDiffusionCoefficient",
            "mm2/yr",
            1e-9,
            1e6,
            "diffusion coefficient of the overlay at its reference age"
        ),
    ];

    /// <summary>All quantities, in the order of <see cref="SectionVariable"/>.</summary>
    public static IReadOnlyList<SectionVariableInfo> All => Table;

    /// <summary>What is known of a quantity.</summary>
    /// <param name="variable">The quantity.</param>
    public static SectionVariableInfo Of(SectionVariable variable) => Table[(int)variable];

    /// <summary>Finds a quantity by its name.</summary>
    /// <param name="name">The name, exact.</param>
    public static SectionVariableInfo? Find(string? name) => Array.Find(Table, v => v.Name == name);
}
