namespace DeckLife.Surveys;

/// <summary>A part of the deck in plan that is looked at by itself: a gutter line, a wheel path, a span.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Left">Least position along the deck [m].</param>
/// <param name="Right">Largest position along the deck [m].</param>
/// <param name="Low">Least position across the deck [m].</param>
/// <param name="High">Largest position across the deck [m].</param>
public sealed record DeckZone(string Name, double Left, double Right, double Low, double High)
{
    /// <summary>Whether a place lies in the zone, its lower ends included.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    public bool Holds(double x, double y) => x >= Left && x < Right && y >= Low && y < High;
}
