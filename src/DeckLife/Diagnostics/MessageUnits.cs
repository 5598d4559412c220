using DeckLife.Quantities;

namespace DeckLife.Diagnostics;

/// <summary>The units that a message is written in.</summary>
/// <param name="Content">Unit of chloride content.</param>
/// <param name="ContentFactor">kg/m³ in one of it.</param>
/// <param name="Diffusion">Unit of the diffusion coefficient.</param>
/// <param name="DiffusionFactor">mm²/yr in one of it.</param>
/// <param name="Length">Unit of depth.</param>
/// <param name="LengthFactor">mm in one of it.</param>
/// <param name="Area">Unit of area.</param>
/// <param name="AreaFactor">m² in one of it.</param>
/// <param name="Position">Unit of positions on the deck.</param>
/// <param name="PositionFactor">m in one of it.</param>
public sealed record MessageUnits(
    string Content,
    double ContentFactor,
    string Diffusion,
    double DiffusionFactor,
    string Length,
    double LengthFactor,
    string Area,
    double AreaFactor,
    string Position,
    double PositionFactor
)
{
    /// <summary>kg/m³, mm²/yr, mm, m², m.</summary>
    public static MessageUnits Canonical { get; } =
        new("kg/m3", 1, "mm2/yr", 1, "mm", 1, "m2", 1, "m", 1);

    /// <summary>lb/yd³, in²/yr, in, ft², ft.</summary>
    public static MessageUnits UsCustomary { get; } =
        new(
            "lb/yd3",
            UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard,
            "in2/yr",
            UnitFactors.SquareMillimetresPerSquareInch,
            "in",
            UnitFactors.MillimetresPerInch,
            "ft2",
            1e-6 * UnitFactors.MillimetresPerFoot * UnitFactors.MillimetresPerFoot,
            "ft",
            1e-3 * UnitFactors.MillimetresPerFoot
        );

    /// <summary>A depth with its unit, the canonical one beside where that is another.</summary>
    /// <param name="millimetres">The depth [mm].</param>
    public string Depth(double millimetres) =>
        LengthFactor == 1
            ? FormattableString.Invariant($"{millimetres:0.#} {Length}")
            : FormattableString.Invariant(
                $"{millimetres / LengthFactor:0.##} {Length} ({millimetres:0.#} mm)"
            );

    /// <summary>A change of the grade with its sign and unit, the canonical one beside where that is another.</summary>
    /// <param name="millimetres">The change [mm].</param>
    public string Rise(double millimetres) => (millimetres > 0 ? "+" : "") + Depth(millimetres);

    /// <summary>The unit that stands for a canonical one, and how many of the canonical ones it holds.</summary>
    internal (string Unit, double Factor) For(string canonical) =>
        canonical switch
        {
            "kg/m3" => (Content, ContentFactor),
            "mm2/yr" => (Diffusion, DiffusionFactor),
            "mm" => (Length, LengthFactor),
            "m2" => (Area, AreaFactor),
            "m" => (Position, PositionFactor),
            _ => throw new ArgumentOutOfRangeException(
                nameof(canonical),
                canonical,
                "no such unit"
            ),
        };
}
