/** Who does so much work has something to push against, W: cranks that spin without a chain take far less. */
export const WORKING_W = 60;
