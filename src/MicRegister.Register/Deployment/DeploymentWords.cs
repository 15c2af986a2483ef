namespace MicRegister.Register.Deployment;

/// <summary>Words for how far a station is, in one place for all who read them; written so that they can stand within a sentence.</summary>
public static class DeploymentWords
{
    extension(StationState state)
    {
        /// <summary>How far a station is.</summary>
        public string InWords => state switch
        {
            StationState.Planned => "planned",
            StationState.Placed => "placed",
            StationState.Checked => "checked",
            StationState.Failing => "failing",
            StationState.TakenIn => "taken in",
            _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
        };
    }
}
