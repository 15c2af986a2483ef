namespace MicRegister.Register.Deployment;

/// <summary>A device that stood somewhere, was taken away and was set up again.</summary>
/// <param name="AwayMs">
/// When it was taken in, or another chain took its place without it, in milliseconds since 1970; the last time before it came back.
/// </param>
/// <param name="AgainMs">When it was placed again.</param>
public readonly record struct SetUpAgain(long AwayMs, long AgainMs);

/// <summary>Whether the parts of a chain were taken away and set up again between two instants: then they were another set-up.</summary>
/// <remarks>The same parts placed anew where they stand, without a word of taking them in, stayed where they were.</remarks>
internal sealed class SetUps
{
    private readonly SetUpAgain[] _again;

    private SetUps(SetUpAgain[] again) => _again = again;

    /// <summary>Nothing was ever set up again.</summary>
    public static SetUps None { get; } = new([]);

    /// <summary>What became of some devices in a campaign.</summary>
    public static SetUps Of(ArrayDeployment deployment, IEnumerable<string> devices)
    {
        List<SetUpAgain>? all = null;
        foreach (var device in devices)
        {
            if (deployment.SetUpAgain.TryGetValue(device, out var own)) (all ??= []).AddRange(own);
        }
        return all is null ? None : new([.. all.Distinct()]);
    }

    /// <summary>The setting up again that lies between a check and what was recorded, whichever came first; null where none does.</summary>
    public SetUpAgain? Between(long fromMs, long toMs)
    {
        foreach (var again in _again)
        {
            if (again.AwayMs >= fromMs && again.AgainMs <= toMs) return again;
        }
        return null;
    }
}
