using System.Globalization;

namespace DeckLife.Studies;

/// <summary>An output of a study.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="AgeYr">The age it is of, or the horizon of a time to initiation [yr].</param>
public sealed record StudyOutput(StudyOutputKind Kind, double AgeYr)
{
    /// <summary>Its name in tables.</summary>
    public string Name =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Kind switch { StudyOutputKind.ContentAtBar => "contentAtBar", StudyOutputKind.TimeToInitiation => "timeToInitiation", _ => "initiatedBy" }}_{AgeYr:0.####}yr"
        );

    /// <summary>Its unit.</summary>
    public string Unit =>
        Kind switch
        {
            StudyOutputKind.ContentAtBar => "kg/m3",
            StudyOutputKind.TimeToInitiation => "yr",
            _ => "1",
        };

    /// <summary>What it is, in words.</summary>
    public string Meaning =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Kind switch { StudyOutputKind.ContentAtBar => "chloride content at the bar at", StudyOutputKind.TimeToInitiation => "time to initiation, empty where not within", _ => "corrosion started by (1 yes, 0 no)" }} {AgeYr:0.####} yr"
        );
}
