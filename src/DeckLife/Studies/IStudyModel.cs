namespace DeckLife.Studies;

/// <summary>What a study computes: outputs of many draws at once, each draw the same wherever it stands.</summary>
internal interface IStudyModel
{
    /// <summary>Number of outputs.</summary>
    int Outputs { get; }

    /// <summary>Computes all outputs of many draws; a time not within its horizon is positive infinity.</summary>
    void Evaluate(int count, double[][] columns, double[][] outputs);

    /// <summary>The margin of an event: it has happened at 0 and below.</summary>
    void Margin(int output, int count, double[][] columns, double[] margins);
}
