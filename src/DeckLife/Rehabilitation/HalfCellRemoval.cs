using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>Removal to under the bars where the half-cell potential is more negative than a limit, to one depth elsewhere.</summary>
/// <param name="Limit">Potential from which on, in the negative direction, the concrete comes out to 3/4 in clear under the bar.</param>
/// <param name="Elsewhere">Depth taken off everywhere else; 0 for none.</param>
/// <remarks>
/// Potentials of active and of passive bars overlap: of both a share lies beyond the limit, by the deck's survey model. Some active bars
/// stay in, some passive ones come out. All that comes out goes to under the bars: precast and post-tensioned decks refuse it beyond one bar in a
/// hundred.
/// </remarks>
public sealed record HalfCellRemoval(Potential Limit, Depth Elsewhere) : RemovalRule;
