namespace MicRegister.Server.Pages.Shell;

/// <summary>The newest state that any part of one person's screen shows: parts follow one by one, the person sees them as one.</summary>
public sealed class Screen
{
    private Register.Register? _newest;

    /// <summary>The newer of a state that a part shows and the newest of all parts, which is kept.</summary>
    public Register.Register Newest(Register.Register shown) => _newest = _newest is { } known && known.Count > shown.Count ? known : shown;
}
