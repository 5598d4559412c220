using DeckLife.Profiles;

namespace DeckLife.Reporting.Sections;

/// <summary>Where on a report's page an assumption, an input or a way of computing stands, so that a number can link to it.</summary>
internal static class SourceAnchor
{
    public const string CoreFit = "basis-core-fit";
    public const string DeckFit = "basis-deck-fit";
    public const string Condition = "basis-condition";
    public const string ServiceLife = "basis-service-life";
    public const string RemovalDepth = "basis-removal-depth";
    public const string Work = "basis-work";
    public const string DepthMap = "basis-depth-map";
    public const string Map = "basis-map";
    public const string Decision = "basis-decision";
    public const string PresentValue = "basis-present-value";
    public const string Cheapest = "basis-cheapest";

    public const string Area = "basis-area";
    public const string Slab = "basis-slab";
    public const string Survey = "basis-survey-date";
    public const string Exposure = "basis-exposure";
    public const string Density = "basis-density";
    public const string Threshold = "basis-threshold";
    public const string Propagation = "basis-propagation";
    public const string DamageLimit = "basis-damage-limit";
    public const string Horizon = "basis-horizon";
    public const string Discount = "basis-discount";
    public const string Analysis = "basis-analysis";
    public const string Chlorides = "basis-chlorides";
    public const string Covers = "basis-cover";
    public const string HalfCells = "basis-half-cell";
    public const string Soundings = "basis-sounding";

    /// <summary>A core of the deck.</summary>
    public static string Core(int index) => FormattableString.Invariant($"basis-core-{index + 1}");

    /// <summary>The samples of a core, where the deck has it.</summary>
    public static string? Sampled(Deck deck, CoreProfile core) =>
        deck.Cores.IndexOf(core) is >= 0 and var index ? Core(index) : null;

    /// <summary>A strategy of the deck, by its name; names are unique in a deck.</summary>
    public static string Strategy(Deck deck, string name) =>
        FormattableString.Invariant(
            $"basis-strategy-{deck.Strategies.Select(s => s.Name).TakeWhile(n => n != name).Count() + 1}"
        );

    /// <summary>An overlay material of the deck.</summary>
    public static string Material(int index) =>
        FormattableString.Invariant($"basis-material-{index + 1}");

    /// <summary>A price of the deck.</summary>
    public static string Price(int index) =>
        FormattableString.Invariant($"basis-price-{index + 1}");

    /// <summary>An assumption, by its place in the list.</summary>
    public static string Assumption(int index) =>
        FormattableString.Invariant($"basis-a{index + 1}");
}
