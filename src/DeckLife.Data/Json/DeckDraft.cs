using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Json;

/// <summary>What deck.json says: the deck without its tables, and how the tables are to be read.</summary>
internal sealed class DeckDraft
{
    /// <summary>The deck without tables; absent where a needed value is missing or wrong.</summary>
    public Deck? Deck { get; set; }

    /// <summary>Whether deck.json could not be read, so that what it would have said is not missing but unknown.</summary>
    public bool IsUnreadable { get; init; }

    public ConcreteMix Mix { get; set; }

    public DateOnly? SurveyDate { get; set; }

    public DateOnly? FirstSalt { get; set; }

    public Age? ExposureAge { get; set; }

    public ChlorideExtraction Extraction { get; set; }

    public ChlorideExtraction ThresholdExtraction { get; set; }

    public int? ThresholdRow { get; set; }

    public StatedChloride? DetectionLimit { get; set; }

    public ImmutableDictionary<string, string> ChlorideColumns { get; set; } =
        ImmutableDictionary<string, string>.Empty;

    public string? ChlorideFile { get; set; }

    public string? CoverFile { get; set; }

    public string? HalfCellFile { get; set; }

    public string? SoundingFile { get; set; }

    public ReferenceElectrode? Electrode { get; set; }

    public string? HalfCellReadings { get; set; }

    public double? StartStationM { get; set; }

    public bool WearsOverlay { get; set; }

    public MeasuringSurface? DepthsFrom { get; set; }

    public MeasuringSurface? CoversFrom { get; set; }

    public List<Assumption> Assumptions { get; } = [];

    public ImmutableArray<StatedField> StatedFields { get; set; } = [];
}
