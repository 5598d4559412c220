namespace DeckLife.Surveys;

/// <summary>The rectangle of the deck in plan that the surveys lie on [m].</summary>
/// <param name="Left">Least position along the deck.</param>
/// <param name="Right">Largest position along the deck.</param>
/// <param name="Low">Least position across the deck.</param>
/// <param name="High">Largest position across the deck.</param>
public readonly record struct DeckPlan(double Left, double Right, double Low, double High)
{
    /// <summary>Length along the deck [m].</summary>
    public double LengthM => Right - Left;

    /// <summary>Width across the deck [m].</summary>
    public double WidthM => High - Low;

    /// <summary>The plan of a deck: its stated length and width where all positions lie on them, else the rectangle around the positions.</summary>
    /// <param name="deck">The deck.</param>
    /// <returns>The plan; nothing where fewer than two places have positions, or all lie on one line.</returns>
    public static DeckPlan? Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var places = Places(deck).ToArray();
        if (places.Length < 2)
        {
            return null;
        }

        var around = new DeckPlan(
            places.Min(p => p.X),
            places.Max(p => p.X),
            places.Min(p => p.Y),
            places.Max(p => p.Y)
        );
        // A tenth of a metre for the crew's tape.
        const double Tape = 0.1;
        if (
            deck.LengthM is { } length
            && deck.WidthM is { } width
            && around.Left >= -Tape
            && around.Low >= -Tape
            && around.Right <= length + Tape
            && around.High <= width + Tape
        )
        {
            return new(0, length, 0, width);
        }

        return around.LengthM > 0 && around.WidthM > 0 ? around : null;
    }

    /// <summary>Every surveyed place of a deck: nodes, cover readings, corners of sounded areas, cores.</summary>
    /// <param name="deck">The deck.</param>
    internal static IEnumerable<(double X, double Y)> Places(Deck deck) =>
        deck
            .HalfCells.Select(h => (h.X, h.Y))
            .Concat(
                deck.Covers.Where(c => c.X is not null && c.Y is not null)
                    .Select(c => (c.X!.Value, c.Y!.Value))
            )
            .Concat(deck.Soundings.SelectMany(s => s.Corners))
            .Concat(
                deck.Cores.Where(c => c.X is not null && c.Y is not null)
                    .Select(c => (c.X!.Value, c.Y!.Value))
            );

    /// <summary>Centres of about so many equal cells, the more nearly square the better.</summary>
    /// <param name="count">Number of cells wanted.</param>
    /// <param name="leastSideM">Least side of a cell [m].</param>
    internal DeckGrid Grid(int count, double leastSideM)
    {
        var side = Math.Max(leastSideM, Math.Sqrt(LengthM * WidthM / count));
        var along = Math.Clamp((int)Math.Round(LengthM / side), 1, count);
        var across = Math.Clamp((int)Math.Round(WidthM / side), 1, Math.Max(1, count / along));
        return new(this, along, across);
    }
}
