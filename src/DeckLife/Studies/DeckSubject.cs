using DeckLife.Fitting;
using DeckLife.Population;

namespace DeckLife.Studies;

/// <summary>The deck and strategy that a study is about, with the sampling of the area that stands for it.</summary>
/// <remarks>
/// The deck is fitted and the strategy planned once, at the middle of what is known; each draw of the study then replaces what it names. The same points
/// of the area serve every draw, so an output is a smooth function of the inputs.
/// </remarks>
public sealed class DeckSubject
{
    private readonly Lazy<DeckBasis> _basis;

    /// <summary>Names the subject; nothing is computed yet.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="strategy">Name of one of its strategies.</param>
    /// <param name="points">Number of points of the area, at least 16.</param>
    public DeckSubject(Deck deck, string strategy, int points = 256)
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 16);
        Deck = deck;
        Strategy = strategy;
        Points = points;
        _basis = new(() => new(deck, strategy, points));
    }

    /// <summary>Names the subject, with what its cores say already known, and how many draws its surveys weigh.</summary>
    internal DeckSubject(Deck deck, string strategy, int points, DeckFit fit, LearningEffort effort)
        : this(deck, strategy, points) =>
        _basis = new(() => new(deck, strategy, points, fit, effort));

    /// <summary>The deck.</summary>
    public Deck Deck { get; }

    /// <summary>Name of the strategy.</summary>
    public string Strategy { get; }

    /// <summary>Number of points of the area.</summary>
    public int Points { get; }

    /// <summary>The fitted deck and the planned strategy.</summary>
    internal DeckBasis Basis => _basis.Value;
}
