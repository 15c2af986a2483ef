using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;

namespace MicRegister.Server.Work;

/// <summary>What a profile would change, worked out without storing anything while somebody waits for it.</summary>
internal static class ProfileTrial
{
    /// <summary>One after the other: each needs a core for as long as it lasts.</summary>
    private static readonly SemaphoreSlim Turns = new(1);

    /// <summary>Begins with the register of the desk, or says why the profile cannot be written.</summary>
    public static Result<ProfileEffect> Begin(
        Desk desk, Register.Register register, string person, string profile, ProfileWritten proposed) =>
        ProfileEffect.Begin(register, desk.Say(person), profile, proposed, desk.Today, id => desk.SiteDay(register, id));

    /// <summary>Works on until all is done, the time is over, or the caller has enough.</summary>
    /// <param name="effect">What is worked out; nobody else may work on it meanwhile.</param>
    /// <param name="time">The clock.</param>
    /// <param name="most">How long at most; what is left then stays countable in the effect.</param>
    /// <param name="seen">Asked now and then whether to go on; for whoever shows how far it is.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task WorkOn(
        ProfileEffect effect, TimeProvider time, TimeSpan most, Func<Task<bool>>? seen, CancellationToken cancel)
    {
        await Turns.WaitAsync(cancel);
        try
        {
            var begin = time.GetTimestamp();
            while (!effect.IsWhole && time.GetElapsedTime(begin) < most)
            {
                await Task.Run(
                    () =>
                    {
                        var from = time.GetTimestamp();
                        while (effect.GoOn() && time.GetElapsedTime(from) < Between && time.GetElapsedTime(begin) < most)
                            cancel.ThrowIfCancellationRequested();
                    }, cancel);
                if (seen is not null && !await seen()) return;
            }
        }
        finally
        {
            Turns.Release();
        }
    }

    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(300);
}
