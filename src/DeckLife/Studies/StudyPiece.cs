namespace DeckLife.Studies;

/// <summary>A piece of a study's work that can be computed by itself, anywhere.</summary>
/// <param name="Method">Number of the method, from 0.</param>
/// <param name="Block">Number of the block within it, from 0.</param>
public readonly record struct StudyPiece(int Method, int Block);
