using System.Collections.Immutable;

namespace DeckLife.Data.Tables;

/// <summary>The rows of a survey table.</summary>
/// <param name="Rows">The rows; empty where the table can't be used.</param>
/// <param name="UsesStations">Whether positions along the deck are stations.</param>
/// <param name="UsesX">Whether positions along the deck are x.</param>
internal sealed record SurveyTable<T>(ImmutableArray<T> Rows, bool UsesStations, bool UsesX);
