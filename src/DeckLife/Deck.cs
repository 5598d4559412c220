using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Profiles;
using DeckLife.Projection;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife;

/// <summary>A bridge deck as its folder describes it: facts, materials, surveys, strategies, prices.</summary>
public sealed record Deck
{
    /// <summary>The deck's name.</summary>
    public required string Name { get; init; }

    /// <summary>What a reader should know of the deck, in a few sentences; absent: nothing.</summary>
    public string? Story { get; init; }

    /// <summary>What the deck is exposed to, in words for the report.</summary>
    public string? Exposure { get; init; }

    /// <summary>Length along the deck [m], where given.</summary>
    public double? LengthM { get; init; }

    /// <summary>Width across the deck [m], where given.</summary>
    public double? WidthM { get; init; }

    /// <summary>The overlay that the deck already wears; absent: none.</summary>
    public ExistingOverlay? ExistingOverlay { get; init; }

    /// <summary>Surface from which the depths of the cores count.</summary>
    public MeasuringSurface ChlorideDepthsFrom { get; init; }

    /// <summary>Surface from which the covers count.</summary>
    public MeasuringSurface CoversFrom { get; init; }

    /// <summary>Area of the deck [m²].</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Thickness of the slab.</summary>
    public required Depth Thickness { get; init; }

    /// <summary>How the deck carries load.</summary>
    public required StructureKind Structure { get; init; }

    /// <summary>Kind of the top bars.</summary>
    public required BarType BarType { get; init; }

    /// <summary>Diameter of the top bars.</summary>
    public required Depth TopBarDiameter { get; init; }

    /// <summary>Calendar year of the surveys: time 0 of every projection.</summary>
    public required int SurveyYear { get; init; }

    /// <summary>Date of the surveys, where the folder gives it to the day.</summary>
    public DateOnly? SurveyDate { get; init; }

    /// <summary>Time from the first salt to the surveys.</summary>
    public required Age ExposureAge { get; init; }

    /// <summary>Age of the concrete at its first salt.</summary>
    public Age ConcreteAgeAtFirstSalt { get; init; }

    /// <summary>Ageing exponent of the deck's concrete from now on; 0 takes D as constant.</summary>
    public double AgeingExponent { get; init; }

    /// <summary>Density of the concrete [kg/m³], where given.</summary>
    public double? ConcreteDensityKgPerM3 { get; init; }

    /// <summary>Binder content of the concrete [kg/m³], where given.</summary>
    public double? BinderContentKgPerM3 { get; init; }

    /// <summary>How the laboratory extracted the chloride.</summary>
    public ChlorideExtraction Extraction { get; init; }

    /// <summary>The threshold for initiation.</summary>
    public required ThresholdInput Threshold { get; init; }

    /// <summary>The time from initiation to damage.</summary>
    public required PropagationInput Propagation { get; init; }

    /// <summary>Overlay materials that the strategies name.</summary>
    public ImmutableArray<OverlayMaterial> Materials { get; init; } = [];

    /// <summary>Sealers, membranes and thin polymer overlays that the strategies name.</summary>
    public ImmutableArray<SurfaceProtection> Protections { get; init; } = [];

    /// <summary>Faster corrosion around repaired places; absent: none is counted.</summary>
    public PatchHalo? Halo { get; init; }

    /// <summary>What the underside is exposed to; absent: not stated, and taken as sealed.</summary>
    public SoffitExposure? Soffit { get; init; }

    /// <summary>Strategies to compare.</summary>
    public ImmutableArray<Strategy> Strategies { get; init; } = [];

    /// <summary>Prices; absent: no cost is reported.</summary>
    public PriceList? Prices { get; init; }

    /// <summary>How far the projection looks ahead.</summary>
    public required Age Horizon { get; init; }

    /// <summary>Real discount rate a year, as a fraction.</summary>
    public double DiscountRate { get; init; }

    /// <summary>Rate at which corrosion goes on under a new overlay, relative to before (less oxygen and moisture); where not stated: 1.</summary>
    public double CorrosionRateUnderOverlay { get; init; } = 1;

    /// <summary>Extra depth that a mill may take [mm]; bars with less cover than planned depth and tolerance are struck.</summary>
    public Depth RemovalTolerance { get; init; }

    /// <summary>Share of the area damaged at which the service life ends.</summary>
    public required double DamageLimit { get; init; }

    /// <summary>Whether the limit counts what was patched since the last full-width overlay with what is damaged.</summary>
    public bool DamageLimitCountsPatches { get; init; }

    /// <summary>What is asked of the search for the best removal depth; absent: nothing in particular.</summary>
    public DepthSearch? DepthSearch { get; init; }

    /// <summary>What could be learned before deciding; empty: chosen by <see cref="ValueOfInformation.OffersFor"/>.</summary>
    public ImmutableArray<InformationOffer> InformationOffers { get; init; } = [];

    /// <summary>Size and seed of the projection.</summary>
    public AnalysisSettings Analysis { get; init; } = new();

    /// <summary>The cores.</summary>
    public ImmutableArray<CoreProfile> Cores { get; init; } = [];

    /// <summary>The cover survey.</summary>
    public ImmutableArray<CoverReading> Covers { get; init; } = [];

    /// <summary>The shape that the cover survey is given; where not stated: normal.</summary>
    public CoverShape CoverShape { get; init; }

    /// <summary>Cover [mm] stated where there are too few readings for a survey (a drawing, a specification); absent: readings are needed.</summary>
    public UncertainValue? StatedCoverMm { get; init; }

    /// <summary>The half-cell survey.</summary>
    public ImmutableArray<HalfCellReading> HalfCells { get; init; } = [];

    /// <summary>The sounding survey.</summary>
    public ImmutableArray<SoundingArea> Soundings { get; init; } = [];

    /// <summary>Parts of the deck in plan that are looked at by themselves; empty: the strips along its edges, where the surveys have positions.</summary>
    public ImmutableArray<DeckZone> Zones { get; init; } = [];

    /// <summary>What the surveys are taken to see, and whether the projection learns from them.</summary>
    public SurveyModel Surveys { get; init; } = new();

    /// <summary>What was assumed because the folder does not say it.</summary>
    public ImmutableArray<Assumption> Assumptions { get; init; } = [];

    /// <summary>Warnings and notes from reading the folder.</summary>
    public ImmutableArray<Diagnostic> Diagnostics { get; init; } = [];

    /// <summary>The files read, with their fingerprints.</summary>
    public ImmutableArray<InputFile> Inputs { get; init; } = [];

    /// <summary>The values that the deck's files state, each with its place; empty for a deck that was not read from files.</summary>
    public ImmutableArray<StatedField> StatedFields { get; init; } = [];
}
