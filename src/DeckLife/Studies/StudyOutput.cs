using System.Globalization;

namespace DeckLife.Studies;

/// <summary>An output of a study.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="AgeYr">The age it is of, for a deck the time from the survey, or the horizon of a time or a present value [yr].</param>
public sealed record StudyOutput(StudyOutputKind Kind, double AgeYr)
{
    /// <summary>Smallest <see cref="Level"/>.</summary>
    public const double LeastLevel = 1e-6;

    /// <summary>Currency of a present value.</summary>
    public string Currency { get; init; } = "";

    /// <summary>Of a share of a deck's area: the level that it is asked to reach, 1e-6 to 1; absent: the share itself is asked.</summary>
    public double? Level { get; init; }

    /// <summary>Whether it is a time that may not come within its horizon.</summary>
    public bool IsTime => Kind is StudyOutputKind.TimeToInitiation or StudyOutputKind.YearOfLimit;

    /// <summary>Whether it is a yes or no.</summary>
    public bool IsEvent => Kind == StudyOutputKind.InitiatedBy || Level is not null;

    /// <summary>Whether it is an event with a margin, which the reliability methods need: initiation by an age, a share that reaches a level, or a life's end within its horizon.</summary>
    public bool HasMargin => IsEvent || Kind == StudyOutputKind.YearOfLimit;

    /// <summary>Whether it is a share of a deck's area.</summary>
    public bool IsShare => Kind is StudyOutputKind.DamagedShare or StudyOutputKind.InitiatedShare;

    /// <summary>Whether it is an output of a deck, not of a section.</summary>
    public bool IsOfDeck =>
        Kind
            is StudyOutputKind.DamagedShare
                or StudyOutputKind.InitiatedShare
                or StudyOutputKind.YearOfLimit
                or StudyOutputKind.PresentValue;

    /// <summary>Its name in study files.</summary>
    public string Key => KeyOf(Kind);

    /// <summary>Its name in tables.</summary>
    public string Name =>
        string.Create(CultureInfo.InvariantCulture, $"{Key}_{AgeYr:0.####}yr")
        + (
            Level is { } level
                ? string.Create(CultureInfo.InvariantCulture, $"_reaching_{level:0.######}")
                : ""
        );

    /// <summary>Its unit.</summary>
    public string Unit =>
        Kind switch
        {
            StudyOutputKind.ContentAtBar => "kg/m3",
            StudyOutputKind.PresentValue => Currency,
            _ => IsTime ? "yr" : "1",
        };

    /// <summary>What it is, in words.</summary>
    public string Meaning =>
        string.Create(CultureInfo.InvariantCulture, $"{Words(Kind)} {AgeYr:0.####} yr")
        + (
            Level is { } level
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $": whether it is {level:0.######} or more (1 yes, 0 no)"
                )
                : ""
        );

    /// <summary>The name of a kind of output in study files.</summary>
    /// <param name="kind">The kind.</param>
    public static string KeyOf(StudyOutputKind kind)
    {
        var name = kind.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    private static string Words(StudyOutputKind kind) =>
        kind switch
        {
            StudyOutputKind.ContentAtBar => "chloride content at the bar at",
            StudyOutputKind.TimeToInitiation => "time to initiation, empty where not within",
            StudyOutputKind.InitiatedBy => "corrosion started by (1 yes, 0 no)",
            StudyOutputKind.DamagedShare => "share of the deck's area damaged, survey plus",
            StudyOutputKind.InitiatedShare => "share of the deck's area initiated, survey plus",
            StudyOutputKind.YearOfLimit =>
                "time from the survey to the end of the strategy's life, empty where not within",
            _ => "present value of the strategy's costs over",
        };
}
