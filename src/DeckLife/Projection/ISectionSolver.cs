namespace DeckLife.Projection;

/// <summary>Solves the layered diffusion problem of many sections at once.</summary>
internal interface ISectionSolver
{
    /// <summary>A solver whose errors are far smaller, to measure this one's by; absent: there is none.</summary>
    ISectionSolver? Finer => null;

    /// <summary>Finds the content at the bars.</summary>
    /// <param name="batch">The sections.</param>
    /// <param name="contents">Content [kg/m³]: for each time of the batch, one value a section.</param>
    void Solve(SectionBatch batch, double[] contents);
}
