using System.Collections.Immutable;

namespace DeckLife.Economics;

/// <summary>How much work one intervention is.</summary>
public sealed record WorkQuantities
{
    /// <summary>When, from the survey [yr].</summary>
    public required double AtYr { get; init; }

    /// <summary>Area of the deck [m²].</summary>
    public required double DeckAreaM2 { get; init; }

    /// <summary>Area repaired [m²]: what was damaged at the survey, found by it or not, and what has been damaged since.</summary>
    public double RepairedAreaM2 { get; init; }

    /// <summary>What of <see cref="RepairedAreaM2"/> was damaged at the survey and would have been found by sounding then [m²].</summary>
    public double FoundAtSurveyM2 { get; init; }

    /// <summary>What of <see cref="RepairedAreaM2"/> was damaged at the survey and would have been missed by sounding then [m²].</summary>
    public double MissedAtSurveyM2 { get; init; }

    /// <summary>Old concrete taken off [m³].</summary>
    public double RemovedM3 { get; init; }

    /// <summary>New material placed [m³].</summary>
    public double PlacedM3 { get; init; }

    /// <summary>The material placed; absent: none.</summary>
    public string? Material { get; init; }

    /// <summary>Rise of the finished grade [mm]; negative: lower.</summary>
    public double GradeRiseMm { get; init; }

    /// <summary>Planned depths of removal [mm] with the area of each [m²].</summary>
    public ImmutableArray<(double DepthMm, double AreaM2)> DepthClasses { get; init; } = [];
}
