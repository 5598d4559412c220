namespace DeckLife.Numerics.Sensitivity;

/// <summary>A function of several variables, computed at many points at once.</summary>
/// <param name="count">Number of points.</param>
/// <param name="inputs">One array a variable, each with at least <paramref name="count"/> values.</param>
/// <param name="outputs">Receives one value a point; finite, or positive infinity where the function defines it.</param>
/// <remarks>Must give each point the same value wherever it stands, and be safe to call from several threads.</remarks>
public delegate void BatchFunction(int count, double[][] inputs, double[] outputs);
