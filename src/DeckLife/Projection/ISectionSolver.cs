namespace DeckLife.Projection;

/// <summary>Solves the layered diffusion problem of many sections at once.</summary>
internal interface ISectionSolver
{
    /// <summary>Finds the content at the bars.</summary>
    /// <param name="batch">The sections.</param>
    /// <param name="contents">Content [kg/m³]: for each time of the batch, one value a section.</param>
    void Solve(SectionBatch batch, double[] contents);
}
