using MicRegister.Register.Facts;

namespace MicRegister.Register.Settings;

/// <summary>What a register says of itself.</summary>
public static class SettingsOfRegister
{
    extension(Register register)
    {
        /// <summary>The register's own name, home, settings and clocks.</summary>
        public RegisterState State =>
            register.Fold(Subject.TheRegister, null, facts => RegisterState.Fold(register.Basis.Founded, register.Basis.Clocks, Register.Counting(facts)), RegisterState.Empty);
    }
}
